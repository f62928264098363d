/* global addEventListener, caches, fetch, Response */
// Keeps the page for use without a network: asked for anew where there is one, answered from the store where there is none.
const store = "stillair-reader";
const kept = ["reader.html", "reader.webmanifest"];

addEventListener("install", (event) => {
  event.waitUntil(caches.open(store).then((cache) => cache.addAll(kept)));
});

addEventListener("fetch", (event) => {
  const isKept = kept.some((name) => new URL(event.request.url).pathname.endsWith(`/${name}`));
  if (!isKept) return;
  event.respondWith(
    fetch(event.request).catch(() =>
      caches.match(event.request, { ignoreSearch: true }).then((found) => found ?? Response.error()),
    ),
  );
});
