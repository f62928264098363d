/** Opens the function named in the address, where Excel's help link points: taskpane.html#FLOORAREA. */
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
