import type { ViewContext } from "./context";
import type { SheetAnswer } from "./desk/answers";
import { element, readMarkup } from "./elements";

/** A sheet as it looks, with the chosen cell marked. The sheet's style is a style sheet of the document, since the page's policy allows no other. */
export function createSheetView(context: ViewContext, sheet: SheetAnswer): HTMLElement {
  const told = context.words.sheets;
  const style = new CSSStyleSheet();
  style.replaceSync(sheet.css);
  document.adoptedStyleSheets = [style];
  const place = element("div", {});
  place.append(readMarkup(sheet.html));
  const about = element("p", { class: "chosen", role: "status" }, told.nothing);
  function choose(cell: Element): void {
    for (const other of place.querySelectorAll("[data-chosen]")) other.removeAttribute("data-chosen");
    cell.setAttribute("data-chosen", "");
    const address = cell.id.replace(/^s\d+-/, "");
    const trace = element(
      "button",
      { type: "button", onclick: () => context.showTrace(`${sheet.prefix}${address}`) },
      told.traceThis,
    );
    about.replaceChildren(
      element("strong", {}, address),
      " ",
      cell.getAttribute("title")?.replace(/^[A-Z]+\d+: /, "") ?? cell.textContent,
      " ",
      trace,
    );
  }

  place.addEventListener("click", ({ target }) => {
    const cell = target instanceof Element ? target.closest("[id]") : null;
    if (cell && place.contains(cell)) choose(cell);
  });
  moveByKeys(place, choose);
  const wanted = sheet.chosen === "" ? null : place.querySelector(`#${CSS.escape(sheet.chosen)}`);
  if (wanted) {
    choose(wanted);
    // The view is not part of the page yet.
    requestAnimationFrame(() => wanted.scrollIntoView({ block: "center", inline: "center" }));
  }
  return element(
    "div",
    { class: "view" },
    element("p", { class: "soft" }, told.about),
    about,
    place,
    element("p", { class: "soft" }, told.key),
  );
}

/** With the region in focus the arrows move the chosen cell, as in a spreadsheet. */
function moveByKeys(place: HTMLElement, choose: (cell: Element) => void): void {
  const steps: Readonly<Record<string, readonly [number, number]>> = {
    ArrowUp: [-1, 0],
    ArrowDown: [1, 0],
    ArrowLeft: [0, -1],
    ArrowRight: [0, 1],
  };
  place.addEventListener("keydown", (event) => {
    const step = steps[event.key];
    const chosen = place.querySelector<HTMLElement>("[data-chosen]");
    if (!step || event.ctrlKey || event.metaKey || event.altKey) return;
    const cells = [...place.querySelectorAll<HTMLTableCellElement>("td[id],th[id]")];
    const next = chosen ? findNext(cells, chosen, step) : cells[0];
    if (!next) return;
    event.preventDefault();
    choose(next);
    next.scrollIntoView({ block: "nearest", inline: "nearest" });
  });
}

function findNext(
  cells: readonly HTMLElement[],
  chosen: HTMLElement,
  [down, across]: readonly [number, number],
): HTMLElement | undefined {
  const from = chosen.getBoundingClientRect();
  const [x, y] = [from.left + Math.min(8, from.width / 2), from.top + Math.min(8, from.height / 2)];
  const measure = (cell: HTMLElement): number => {
    const box = cell.getBoundingClientRect();
    if (down !== 0) {
      const isInLine = box.left <= x && x < box.right;
      const gap = down > 0 ? box.top - from.bottom : from.top - box.bottom;
      return isInLine && gap > -1 ? gap : Infinity;
    }
    const isInLine = box.top <= y && y < box.bottom;
    const gap = across > 0 ? box.left - from.right : from.left - box.right;
    return isInLine && gap > -1 ? gap : Infinity;
  };
  let [best, least] = [undefined as HTMLElement | undefined, Infinity];
  for (const cell of cells) {
    const gap = measure(cell);
    if (gap < least) [best, least] = [cell, gap];
  }
  return best;
}
