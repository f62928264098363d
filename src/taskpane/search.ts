/** Hides functions and settings that lack any of the typed words, and groups left empty; shows how many remain. */
export function wireSearch(page: Document): void {
  const field = page.querySelector<HTMLInputElement>("#search");
  const found = page.querySelector<HTMLElement>("#found");
  const nothing = page.querySelector<HTMLElement>("#nothing");
  if (!field || !found || !nothing) return;
  const functions = new Entries([...page.querySelectorAll<HTMLElement>("details.function")]);
  const settings = new Entries([...page.querySelectorAll<HTMLElement>(".setting")]);

  field.addEventListener("input", () => {
    const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
    const [ofFunctions, ofSettings] = [functions.show(words), settings.show(words)];
    for (const group of page.querySelectorAll<HTMLElement>("section.group"))
      group.hidden = !group.querySelector("details.function:not([hidden])");
    // A label is found inside its group, so the group opens; without words all are closed again.
    for (const group of page.querySelectorAll<HTMLDetailsElement>("details.labels")) {
      group.hidden = !group.querySelector(".setting:not([hidden])");
      group.open = words.length > 0 && !group.hidden;
    }
    nothing.hidden = ofFunctions + ofSettings > 0;
    found.textContent =
      words.length === 0
        ? `${functions.count} functions`
        : `${ofFunctions} of ${functions.count} functions` + (ofSettings > 0 ? `, ${nameSettings(ofSettings)}` : "");
  });
}

const nameSettings = (count: number): string => (count === 1 ? "1 setting" : `${count} settings`);

/** Parts of the page that are found by their words. */
class Entries {
  /** Read once: the text of the page is the index. */
  private readonly texts: readonly string[];

  constructor(private readonly elements: readonly HTMLElement[]) {
    this.texts = elements.map((element) => element.textContent.toLowerCase());
  }

  get count(): number {
    return this.elements.length;
  }

  /** Shows those that have every word, and gives their number. */
  show(words: readonly string[]): number {
    this.elements.forEach((element, index) => {
      element.hidden = !words.every((word) => this.texts[index]?.includes(word));
    });
    return this.elements.filter(({ hidden }) => !hidden).length;
  }
}
