/** Opens the function that the address names, as Excel's help link does: taskpane.html#FLOORAREA. */
export function wireLinks(view: Window): void {
  const show = (): void => {
    const entry = view.document.getElementById(view.location.hash.slice(1));
    if (!(entry instanceof HTMLDetailsElement)) return;
    entry.open = true;
    entry.querySelector("summary")?.focus();
    entry.scrollIntoView();
  };
  view.addEventListener("hashchange", show);
  // Not earlier: when it has loaded, the browser goes to the named place itself and takes the focus away from the summary.
  view.addEventListener("load", show);
}
