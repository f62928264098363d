import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { lineSeries, logLogChart, pointSeries, tickSeries } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import type { SheetChart } from "../blocks/hucre";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette } from "../blocks/style";
import type { Units } from "../blocks/units";
import { footer, readingRows, sheets } from "./layout";
import type { Runs } from "./run";

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
  writePageHead(sheet, letterhead, ["B", "H"], "Air leakage graph", lead);
  sheet.heightOf(14, 5, 52);
  const { units } = runs[0].form;
  const points = writeGraphPoints(sheet, runs);
  const from = { row: chartRows.top - 1, col: 1 };
  const to = { row: chartRows.bottom, col: 8 };
  sheet.chart(leakageChart(points, { from, to }, 9, units));
  writeColumnHeads(sheet, 45, "B", ["<run", "C", "n", "lower", "upper", "r²", `q50, ${units.flow}`]);
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

const count = readingRows.last - readingRows.first + 1;
const first = 8;
const last = first + count - 1;

const pressureTicks = [20, 30, 40, 50, 60, 80];

/** Columns of x and y of one set of points, and its rows. */
interface Points {
  readonly x: string;
  readonly y: string;
}

export interface GraphPoints {
  /** In the order of the runs. */
  readonly used: readonly Points[];
  readonly unused: readonly Points[];
  readonly lines: readonly Points[];
  readonly fifty: Points;
  /** Where the words "50 Pa" stand. */
  readonly fiftyLabel: Points;
  /** One point each, with the number that it carries. */
  readonly xTicks: readonly (Points & { readonly label: string })[];
  readonly yTicks: Points;
}

/**
 * The numbers behind the graph, beside it and outside the print area. #N/A is what a chart leaves out: a blank row, a reading that takes no
 * part, a tick beyond the paper.
 */
function writeGraphPoints(sheet: Sheet, runs: Runs): GraphPoints {
  writeHeading(sheet, 5, ["K", "AF"], "Points of the graph (not printed)");
  sheet.put(
    "K6",
    "#N/A is left out of the graph on purpose: spare rows, runs not made, readings that take no part, ticks beyond the paper.",
    looks.note,
  );
  sheet.merge("K6:AF6");
  const starts = ["K", "M", "O", "Q", "S", "U", "W", "Y"];
  ["depr.", "depr. 2", "press.", "press. 2", ...Array<string>(4).fill("not used")].forEach((title, index) => {
    const [x = "", y = ""] = pair(starts[index] ?? "");
    writeColumnHeads(sheet, 7, x, [`${title} Δp`, "q"]);
    const run = runs[index % 4];
    if (!run) return;
    const shown = index < 4 ? '<>"no"' : '="no"';
    for (let row = first; row <= last; row++) {
      const { induced, flow, use } = run.reading(row - first);
      const show = (value: string) => `IF(COUNT(${induced},${flow})<2,NA(),IF(${use}${shown},${value},NA()))`;
      sheet.formula(`${x}${row}`, show(`ABS(${induced})`), native(decimals(2)));
      sheet.formula(`${y}${row}`, show(flow), native(decimals(1)));
    }
  });
  const points = (start: string, from = first, to = last): Points => {
    const [x, y] = pair(start);
    return { x: onSheet(sheets.graph, `${x}${from}:${x}${to}`), y: onSheet(sheets.graph, `${y}${from}:${y}${to}`) };
  };
  writeFittedLines(sheet, runs);
  writeTicks(sheet);
  return {
    used: starts.slice(0, 4).map((start) => points(start)),
    unused: starts.slice(4).map((start) => points(start)),
    lines: runs.map((_, index) => points("AA", 8 + 3 * index, 9 + 3 * index)),
    fifty: points("AA", 20, 21),
    fiftyLabel: points("AA", 22, 22),
    xTicks: pressureTicks.map((pressure, index) => ({
      label: String(pressure),
      ...points("AC", 8 + index, 8 + index),
    })),
    yTicks: points("AE", 8, 13),
  };
}

function pair(start: string): [x: string, y: string] {
  return [start, lettersOf(columnOf(start) + 1)];
}

function writeFittedLines(sheet: Sheet, runs: Runs): void {
  writeColumnHeads(sheet, 7, "AA", ["lines Δp", "q"]);
  runs.forEach(({ readings, wholeTest: { value } }, index) => {
    const made = (formula: string) => `IF(COUNTA(${readings})=0,NA(),IFERROR(${formula},NA()))`;
    for (const [offset, end] of ["dp_min", "dp_max"].entries()) {
      const row = 8 + 3 * index + offset;
      sheet.formula(`AA${row}`, made(`ABS(${value(end)})+0*${value("C")}`), native(decimals(2)));
      sheet.formula(`AB${row}`, made(`${value("C")}*AA${row}^${value("n")}`), native(decimals(1)));
    }
  });
  sheet.put("AA20", 50, native(decimals(2))).put("AA21", 50, native(decimals(2)));
  sheet.put("AB20", 10, native(decimals(1))).formula("AB21", "0.999*AB24", native(decimals(1)));
  sheet.put("AA22", 50, native(decimals(2))).formula("AB22", "0.85*AB24", native(decimals(1)));
  const ends = runs.map(
    ({ readings, wholeTest: { value } }) => `IF(COUNTA(${readings})=0,10,IFERROR(${value("q_max")},10))`,
  );
  const largest = `MAX(10,${ends.join(",")})`;
  sheet.put("AA24", "top", looks.unit);
  sheet.formula("AB24", `IF(${largest}<1000,1000,IF(${largest}<10000,10000,100000))`, native(decimals(0)));
}

function writeTicks(sheet: Sheet): void {
  writeColumnHeads(sheet, 7, "AC", ["ticks Δp", "q", "ticks Δp", "q"]);
  pressureTicks.forEach((pressure, index) => {
    sheet.put(`AC${8 + index}`, pressure, native(decimals(0))).put(`AD${8 + index}`, 10, native(decimals(0)));
  });
  [20, 50, 200, 500, 2000, 5000].forEach((flow, index) => {
    sheet.put(`AE${8 + index}`, 10, native(decimals(0)));
    sheet.formula(`AF${8 + index}`, `IF(${flow}<$AB$24,${flow},NA())`, native(decimals(0)));
  });
}
