import { readProblem, type ViewContext } from "./context";
import type { FileAnswer } from "./desk/answers";
import { element } from "./elements";

/** A file that can be made, with the words for it. */
export interface Offer {
  readonly words: string;
  readonly make: () => Promise<FileAnswer>;
}

/** Files made on request and offered for saving; nothing is sent anywhere. */
export function createFilesView(context: ViewContext, offers: readonly Offer[]): HTMLElement {
  return element(
    "div",
    { class: "view" },
    element("p", { class: "soft" }, context.words.files.about),
    element("ul", { class: "offers" }, ...offers.map((offer) => showOffer(context, offer))),
  );
}

function showOffer(context: ViewContext, { words, make }: Offer): HTMLElement {
  const told = context.words.files;
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
      outcome.replaceChildren(element("p", { class: "caution" }, readProblem(context, problem)));
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
