import type { ViewContext } from "./context";
import type { FileAnswer } from "./desk/answers";
import { element } from "./elements";

/** A file that can be made, with the words for it. */
export interface Offer {
  readonly words: string;
  readonly make: () => Promise<FileAnswer>;
}

/** Files made on request and offered for saving; nothing is sent anywhere. */
export function createFilesView({ words }: ViewContext, offers: readonly Offer[]): HTMLElement {
  const told = words.files;
  return element(
    "div",
    { class: "view" },
    element("p", { class: "soft" }, told.about),
    element("ul", { class: "offers" }, ...offers.map((offer) => showOffer(told, offer))),
  );
}

function showOffer(told: ViewContext["words"]["files"], { words, make }: Offer): HTMLElement {
  const outcome = element("div", { role: "status" });
  const ask = element("button", { type: "button", onclick: () => void show() }, told.make);

  async function show(): Promise<void> {
    ask.disabled = true;
    try {
      const file = await make();
      outcome.replaceChildren(
        element("p", {}, told.made(file.name)),
        ...file.notes.map((note) => element("p", { class: "soft" }, note)),
        element("p", {}, offerDownload(told, file)),
      );
    } catch (problem) {
      outcome.replaceChildren(
        element("p", { class: "caution" }, problem instanceof Error ? problem.message : String(problem)),
      );
    }
    ask.disabled = false;
  }

  return element("li", {}, element("span", {}, words), ask, outcome);
}

/** A link that saves the file; its address is given up when the page closes. */
function offerDownload(told: ViewContext["words"]["files"], { name, type, bytes }: FileAnswer): HTMLElement {
  const content = typeof bytes === "string" ? bytes : new Uint8Array(bytes);
  return element(
    "a",
    { href: URL.createObjectURL(new Blob([content], { type })), download: name },
    told.download(name),
  );
}
