import { cellButton, formatNumber, type ViewContext } from "./context";
import type { GraphAnswer } from "./desk/answers";
import { element, listTable, readMarkup } from "./elements";

/** The air leakage graph of a test; a click on a reading, in the drawing or in the list, leads to its cell. */
export function createGraphView(context: ViewContext, graph: GraphAnswer): HTMLElement {
  const told = context.words.graph;
  const { readings, svg, flowUnit } = graph;
  const drawing = element("figure", { class: "scroll paper", tabindex: 0, role: "region", "aria-label": graph.title });
  drawing.append(readMarkup(svg, "image/svg+xml"));
  // The marks of readings are the only shapes with a title; they come in the order of the list.
  [...drawing.querySelectorAll("circle > title, path > title")].forEach((title, index) => {
    const address = readings[index]?.address ?? "";
    const mark = title.parentElement;
    if (address === "" || !mark) return;
    mark.classList.add("reading");
    mark.addEventListener("click", () => context.showInSheet(address));
  });
  // As wide as the page allows, but never so small that its words cannot be read; then it scrolls.
  const picture = drawing.querySelector("svg");
  const fitted = `max(34rem, min(100%, ${picture?.getAttribute("width") ?? 760}px))`;
  picture?.style.setProperty("width", fitted);
  const size = element("input", {
    type: "range",
    min: 50,
    max: 250,
    value: 100,
    oninput: ({ target }) => {
      picture?.style.setProperty("width", `calc(${fitted} * ${Number((target as HTMLInputElement).value) / 100})`);
    },
  });
  const rows = readings.map(({ line, pressure, flow, isUsed, address }) => [
    address === "" ? line : cellButton(context, address),
    line,
    formatNumber(context, pressure),
    formatNumber(context, flow),
    isUsed ? told.yes : told.no,
  ]);
  return element(
    "div",
    { class: "view" },
    element("p", { class: "soft" }, told.about),
    element("label", { class: "filter" }, `${told.zoom} `, size),
    drawing,
    element(
      "details",
      {},
      element("summary", {}, told.readings),
      listTable(
        told.readings,
        [context.words.verdict.cell, told.line, `${told.pressure}, Pa`, `${told.flow}, ${flowUnit}`, told.used],
        rows,
        [2, 3],
      ),
    ),
  );
}

/** A list of the workbook's tests to choose one from; nothing where there is only one. */
export function createGraphChoice(
  { words }: ViewContext,
  titles: readonly string[],
  chosen: number,
  choose: (index: number) => void,
): HTMLElement | undefined {
  if (titles.length < 2) return undefined;
  const list = element(
    "select",
    { onchange: ({ target }) => choose(Number((target as HTMLSelectElement).value)) },
    ...titles.map((title, index) => element("option", { value: index, selected: index === chosen }, title)),
  );
  return element("label", { class: "filter" }, `${words.graph.which} `, list);
}
