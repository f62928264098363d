const shownFor = 2000; // ms, long enough to read one word

/** Makes each example's button copy it; where a page may not use the clipboard, the formula is selected instead. */
export function wireCopy(page: Document): void {
  page.addEventListener("click", (event) => {
    const button =
      event.target instanceof Element ? event.target.closest<HTMLButtonElement>("button[data-copy]") : null;
    const formula = button?.parentElement?.querySelector("code");
    if (button && formula) void copy(formula).then((copied) => acknowledge(button, copied ? "Copied" : "Selected"));
  });
}

async function copy(formula: HTMLElement): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(formula.textContent);
    return true;
  } catch {
    // Excel on the web shows the pane in a frame that may not write to the clipboard.
    getSelection()?.selectAllChildren(formula);
    return false;
  }
}

function acknowledge(button: HTMLButtonElement, word: string): void {
  button.textContent = word;
  setTimeout(() => (button.textContent = "Copy"), shownFor);
}

/** Opens the function named in the address, as older help links name it: taskpane.html#FLOORAREA. */
export function wireLinks(view: Window): void {
  const show = (): void => {
    const entry = view.document.getElementById(view.location.hash.slice(1));
    if (!(entry instanceof HTMLDetailsElement)) return;
    entry.open = true;
    entry.querySelector("summary")?.focus();
    entry.scrollIntoView();
  };
  view.addEventListener("hashchange", show);
  // Not earlier: once loaded, the browser jumps to the anchor itself and takes the focus away from the summary.
  view.addEventListener("load", show);
}
