/* global addEventListener, caches, fetch, Response */
// Keeps the page for use without a network: asked for anew where there is one, answered from the store where there is none.
const store = "stillair-reader";
const kept = ["reader.html", "reader.webmanifest"];

addEventListener("install", (event) => {
  event.waitUntil(caches.open(store).then((cache) => cache.addAll(kept)));
});

addEventListener("fetch", (event) => {
  const name = kept.find((one) => new URL(event.request.url).pathname.endsWith(`/${one}`));
  if (name) event.respondWith(answer(event, name));
});

async function answer(event, name) {
  try {
    const anew = await fetch(event.request);
    // What is answered without a network is the last version seen with one, not the first.
    if (anew.ok) event.waitUntil(keep(name, anew.clone()));
    return anew;
  } catch {
    return (await caches.match(name)) ?? Response.error();
  }
}

async function keep(name, content) {
  const cache = await caches.open(store);
  await cache.put(name, content);
}
