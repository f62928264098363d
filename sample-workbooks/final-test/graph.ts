import { lineSeries, logLogChart, pointSeries, tickSeries } from "../blocks/chart";
import { columnHeads, letterhead, pageHead } from "../blocks/heading";
import type { SheetChart } from "../blocks/hucre";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette } from "../blocks/style";
import type { Units } from "../blocks/units";
import type { Runs } from "./direction";
import { graphPoints, type GraphPoints } from "./graph-points";
import { footer, sheets } from "./places";

const chartRows = { top: 5, bottom: 42 } as const;

/** Series whose points stand without a line. */
export const markersOnly = [
  "Depressurization",
  "Pressurization",
  "Depressurization, run 2",
  "Pressurization, run 2",
  "not used",
  "50 Pa",
  "ticks",
  "20",
  "30",
  "40",
  "50",
  "60",
  "80",
] as const;

/** Every run with its line, both axes logarithmic, and the fits in numbers. */
export function graphPage(runs: Runs): Page & { readonly points: GraphPoints } {
  const widths = [1.5, 24, 12, 12, 12, 12, 12, 13, 2, 3, ...Array<number>(22).fill(10)];
  const sheet = new Sheet(sheets.graph, widths, palette.petrol, {
    orientation: "portrait",
    areas: ["B1:H52"],
    pages: 1,
    footer,
  });
  const lead =
    "Flow through the envelope against induced pressure, both on logarithmic axes, at the conditions of the test.";
  pageHead(sheet, letterhead, ["B", "H"], "Air leakage graph", lead);
  sheet.heightOf(14, 5, 52);
  const { units } = runs[0].form;
  const points = graphPoints(sheet, runs);
  const from = { row: chartRows.top - 1, col: 1 };
  const to = { row: chartRows.bottom, col: 8 };
  sheet.chart(leakageChart(points, { from, to }, 9, units));
  columnHeads(sheet, 45, "B", ["<run", "C", "n", "lower", "upper", "r²", `q50, ${units.flow}`]);
  const lines: readonly (readonly [symbol: string, column: "value" | "lower" | "upper", digits: number])[] = [
    ["C", "value", 2],
    ["n", "value", 3],
    ["n", "lower", 3],
    ["n", "upper", 3],
    ["r2", "value", 4],
    ["q50", "value", 1],
  ];
  runs.forEach(({ direction, run, wholeTest, readings }, index) => {
    const row = 46 + index;
    const mark = ["●", "○", "◆", "◇"][index] ?? "";
    sheet.put(`B${row}`, `${mark}  ${direction}${run === 1 ? "" : `, run ${run}`}`, looks.label);
    lines.forEach(([symbol, column, digits], offset) => {
      const value = `IF(COUNTA(${readings})=0,"not tested",${wholeTest[column](symbol)})`;
      sheet.formula(`${"CDEFGH".charAt(offset)}${row}`, value, native(decimals(digits)));
    });
  });
  sheet.put(
    "B51",
    "Limits of n from the scatter of the readings. q50 is at reference conditions (20 °C, 101 325 Pa, dry air); the lines are drawn at the conditions of the test, so they cross " +
      "50 Pa a little beside it. A cross marks a reading that is kept on its sheet but takes no part.",
    looks.note,
  );
  sheet.merge("B51:H52");
  return { sheet, names: {}, points };
}

/** Both directions, their lines, and a mark at 50 Pa; filled against open, solid against dashed, so that no colour is needed. */
export function leakageChart(
  points: GraphPoints,
  anchor: SheetChart["anchor"],
  size: number,
  units: Units,
): SheetChart {
  const small = size < 9;
  const dot = (name: string, index: number, symbol: "circle" | "diamond", colour: string, fill = colour) => {
    const { x = "", y = "" } = points.used[index] ?? {};
    const size = (small ? 5 : 8) + (symbol === "diamond" ? 1 : 0) - (fill === colour ? 0 : 2);
    return pointSeries(name, x, y, symbol, fill, colour, size);
  };
  const line = (index: number, colour: string, dash?: "dash" | "sysDot") => {
    const { x = "", y = "" } = points.lines[index] ?? {};
    return lineSeries("fitted line", x, y, colour, small ? 1.25 : 1.75, dash);
  };
  const out = points.unused.map(({ x, y }) =>
    pointSeries("not used", x, y, "x", palette.grey, palette.grey, small ? 5 : 7),
  );
  const series = [
    dot("Depressurization", 0, "circle", palette.petrol),
    line(0, palette.petrol),
    dot("Pressurization", 2, "diamond", palette.copper),
    line(2, palette.copper, "dash"),
    lineSeries("at 50 Pa", points.fifty.x, points.fifty.y, palette.ink, 1, "sysDot"),
    dot("Depressurization, run 2", 1, "circle", palette.petrol, palette.petrolMid),
    line(1, palette.petrol),
    dot("Pressurization, run 2", 3, "diamond", palette.copper, palette.inputEdge),
    line(3, palette.copper, "dash"),
    ...out,
    tickSeries("50 Pa", points.fiftyLabel.x, points.fiftyLabel.y, "r", size),
    tickSeries("ticks", points.yTicks.x, points.yTicks.y, "l", size),
    ...points.xTicks.map(({ label, x, y }) => tickSeries(label, x, y, "b", size)),
  ];
  const hidden = series.map((_, index) => index).slice(4);
  return logLogChart(series, hidden, anchor, {
    xTitle: "induced pressure difference, Pa",
    yTitle: `air flow through the envelope, ${units.flow}`,
    alternative:
      "Air leakage graph on logarithmic axes: readings and fitted lines of the depressurization and the pressurization test, with 50 Pa marked.",
    textSize: size,
  });
}
