import { type Findable, findByWords } from "./search-words";

/** Hides functions and settings that lack any of the typed words, and groups left empty; shows how many remain. */
export function wireSearch(page: Document): void {
  const field = page.querySelector<HTMLInputElement>("#search");
  const found = page.querySelector<HTMLElement>("#found");
  const nothing = page.querySelector<HTMLElement>("#nothing");
  if (!field || !found || !nothing) return;
  const functions = [...page.querySelectorAll<HTMLElement>("details.function")].map(readPart);
  const settings = [...page.querySelectorAll<HTMLElement>(".setting")].map(readPart);

  field.addEventListener("input", () => {
    const isSearch = field.value.trim() !== "";
    const [ofFunctions, ofSettings] = [showFound(field.value, functions), showFound(field.value, settings)];
    for (const group of page.querySelectorAll<HTMLElement>("section.group"))
      group.hidden = !group.querySelector("details.function:not([hidden])");
    // A label is found inside its group, so the group opens; without words all are closed again.
    for (const group of page.querySelectorAll<HTMLDetailsElement>("details.labels")) {
      group.hidden = !group.querySelector(".setting:not([hidden])");
      group.open = isSearch && !group.hidden;
    }
    nothing.hidden = ofFunctions + ofSettings > 0;
    found.textContent = isSearch
      ? `${ofFunctions} of ${functions.length} functions` + (ofSettings > 0 ? `, ${nameSettings(ofSettings)}` : "")
      : `${functions.length} functions`;
  });
}

const nameSettings = (count: number): string => (count === 1 ? "1 setting" : `${count} settings`);

/** A part of the page that is found by its words. */
interface PagePart extends Findable {
  readonly element: HTMLElement;
}

/** Read once: the text of the page is the index. Its first code is what it describes. */
const readPart = (element: HTMLElement): PagePart => ({
  element,
  name: element.querySelector("code")?.textContent ?? "",
  text: element.textContent,
});

/** Shows the parts that have every word, and gives their number. */
function showFound(words: string, parts: readonly PagePart[]): number {
  const found = new Set(findByWords(words, parts));
  for (const part of parts) part.element.hidden = !found.has(part);
  return found.size;
}
