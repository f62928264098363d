/** Hides functions that lack any of the typed words, and groups left empty; shows how many remain. */
export function wireSearch(page: Document): void {
  const field = page.querySelector<HTMLInputElement>("#search");
  const found = page.querySelector<HTMLElement>("#found");
  const nothing = page.querySelector<HTMLElement>("#nothing");
  if (!field || !found || !nothing) return;
  const entries = [...page.querySelectorAll<HTMLDetailsElement>("details.function")];
  // Read once: the text of the page is the index.
  const texts = entries.map((entry) => entry.textContent.toLowerCase());
  const total = entries.length;

  field.addEventListener("input", () => {
    const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
    let shown = 0;
    entries.forEach((entry, index) => {
      const matches = words.every((word) => texts[index]?.includes(word));
      entry.hidden = !matches;
      if (matches) shown += 1;
    });
    for (const group of page.querySelectorAll<HTMLElement>("section.group"))
      group.hidden = !group.querySelector("details.function:not([hidden])");
    nothing.hidden = shown > 0;
    found.textContent = words.length === 0 ? `${total} functions` : `${shown} of ${total} functions`;
  });
}
