import { element } from "../views/elements";
import type { Words } from "../views/words/english";

/** Where the page was served, a button that keeps it for use without a network; a page opened from a disk needs none. */
export function offerOffline(words: Words): HTMLElement[] {
  if (!location.protocol.startsWith("http") || !("serviceWorker" in navigator)) return [];
  const keep = element("button", { type: "button", onclick: () => void install() }, words.offline);
  async function install(): Promise<void> {
    keep.disabled = true;
    document.head.append(element("link", { rel: "manifest", href: "reader.webmanifest" }));
    await navigator.serviceWorker.register("reader-offline.js");
    await navigator.serviceWorker.ready;
    keep.textContent = words.offlineReady;
  }
  return [keep];
}
