import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { lineSeries, logLogChart, nameAt, pointSeries, tickSeries } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import type { SheetChart } from "../blocks/hucre";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette } from "../blocks/style";
import type { Units } from "../blocks/units";
import { footer, readingRows, sheets } from "./layout";
import type { Runs } from "./run";
import { limitedRow, runColumns } from "./run-results";

const chartRows = { top: 5, bottom: 42 } as const;

/** Series whose points stand without a line. */
export const markersOnly = [
  "Depressurization",
  "Pressurization",
  "Depressurization, run 2",
  "Pressurization, run 2",
  "not used",
] as const;

/** Every run with its line, both axes logarithmic, and the fits in numbers. */
export function graphPage(runs: Runs): Page & { readonly points: GraphPoints } {
  const widths = [1.5, 24, 11.5, 11.5, 11.5, 11.5, 11.5, 13, 2, 3, ...Array<number>(25).fill(10)];
  const sheet = new Sheet(sheets.graph, widths, palette.petrol, {
    orientation: "portrait",
    areas: ["B1:H52"],
    pages: 1,
    footer,
    workingPaper: true,
  });
  const lead =
    "Flow through the envelope against induced pressure, both on logarithmic axes that fit the readings, at the conditions of the test.";
  writePageHead(sheet, letterhead, ["B", "H"], "Air leakage graph", lead);
  sheet.heightOf(12.8, 5, 52);
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
      "50 Pa a little beside it. The short red line is the flow at which this house just meets the limit. A cross marks a reading that is kept on its sheet but takes no part.",
    looks.note,
  );
  sheet.merge("B51:H52").height(24, 52);
  return { sheet, names: {}, points };
}

/** Both directions, their lines, marks at 50 Pa and at the limit; filled against open, solid against dashed, so that no colour is needed. */
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
    lineSeries("limit", points.limit.x, points.limit.y, palette.fail, 2.25),
    lineSeries("grid", points.grid.x, points.grid.y, palette.rule, 0.5),
    dot("Depressurization, run 2", 1, "circle", palette.petrol, palette.petrolMid),
    line(1, palette.petrol),
    dot("Pressurization, run 2", 3, "diamond", palette.copper, palette.inputEdge),
    line(3, palette.copper, "dash"),
    ...out,
    tickSeries("50 Pa", points.fiftyLabel.x, points.fiftyLabel.y, "r", size),
    tickSeries("limit", points.limitLabel.x, points.limitLabel.y, "l", size),
    ...points.yTicks.map(({ label, x, y }) => tickSeries(nameAt(label), x, y, "l", size)),
    ...points.xTicks.map(({ label, x, y }) => tickSeries(label, x, y, "b", size)),
  ];
  const hidden = series.map((_, index) => index).slice(4);
  return logLogChart(series, hidden, anchor, {
    xTitle: "induced pressure difference, Pa",
    yTitle: `air flow through the envelope, ${units.flow}`,
    alternative:
      "Air leakage graph on logarithmic axes: readings and fitted lines of the depressurization and the pressurization test, with 50 Pa and the limit marked.",
    textSize: size,
  });
}

const count = readingRows.last - readingRows.first + 1;
const first = 8;
const last = first + count - 1;

const pressureTicks = [20, 30, 40, 50, 60, 80];

/** Steps of an axis over one power of ten, and over several; the flows that an axis may begin and end with. */
const steps = { fine: [1, 1.5, 2, 3, 4, 5, 6, 8], coarse: [1, 2, 5] } as const;
const decades = [0, 1, 2, 3, 4, 5] as const;
const mostTicks = 12;

/** Where the scale of the flows is worked out, below the points of the lines. */
const scale = { lowest: "$AB$24", highest: "$AB$25", bottom: "$AB$26", top: "$AB$27", limit: "$AB$28" } as const;

/** Columns of x and y of one set of points, and its rows. */
interface Points {
  readonly x: string;
  readonly y: string;
}

type LabelledPoint = Points & { readonly label: string };

export interface GraphPoints {
  /** In the order of the runs. */
  readonly used: readonly Points[];
  readonly unused: readonly Points[];
  readonly lines: readonly Points[];
  readonly fifty: Points;
  /** Where the words "50 Pa" stand. */
  readonly fiftyLabel: Points;
  /** The flow at which the result would be the limit, at the criterion's pressure. */
  readonly limit: Points;
  readonly limitLabel: Points;
  readonly grid: Points;
  /** One point each, with the number that it carries. */
  readonly xTicks: readonly LabelledPoint[];
  /** The number is in a cell, since the scale follows the readings. */
  readonly yTicks: readonly LabelledPoint[];
}

/** A formula: how far up the graph a flow is, from 0 to 1; a program fits an axis by powers of ten only, so the points are scaled instead. */
const heightOf = (flow: string) => `LN(${flow}/${scale.bottom})/LN(${scale.top}/${scale.bottom})`;

/**
 * The numbers behind the graph, beside it and outside the print area. #N/A is what a chart leaves out: a blank row, a reading that takes no
 * part, a tick beyond the scale.
 */
function writeGraphPoints(sheet: Sheet, runs: Runs): GraphPoints {
  writeHeading(sheet, 5, ["K", "AJ"], "Points of the graph (not printed)");
  sheet.put(
    "K6",
    "Heights are from 0 to 1 on a logarithmic scale that fits the flows. #N/A is left out of the graph on purpose: spare rows, runs not made, readings that take no part, ticks beyond the scale.",
    looks.note,
  );
  sheet.merge("K6:AJ6");
  const starts = ["K", "M", "O", "Q", "S", "U", "W", "Y"];
  ["depr.", "depr. 2", "press.", "press. 2", ...Array<string>(4).fill("not used")].forEach((title, index) => {
    const [x = "", y = ""] = pair(starts[index] ?? "");
    writeColumnHeads(sheet, 7, x, [`${title} Δp`, "height"]);
    const run = runs[index % 4];
    if (!run) return;
    const shown = index < 4 ? '<>"no"' : '="no"';
    for (let row = first; row <= last; row++) {
      const { induced, flow, use } = run.reading(row - first);
      const show = (value: string) => `IF(COUNT(${induced},${flow})<2,NA(),IF(${use}${shown},${value},NA()))`;
      sheet.formula(`${x}${row}`, show(`ABS(${induced})`), native(decimals(2)));
      sheet.formula(`${y}${row}`, show(heightOf(flow)), native(decimals(3)));
    }
  });
  const points = (start: string, from = first, to = last): Points => {
    const [x, y] = pair(start);
    return { x: onSheet(sheets.graph, `${x}${from}:${x}${to}`), y: onSheet(sheets.graph, `${y}${from}:${y}${to}`) };
  };
  writeFittedLines(sheet, runs);
  writeScale(sheet, runs);
  writeTicks(sheet);
  return {
    used: starts.slice(0, 4).map((start) => points(start)),
    unused: starts.slice(4).map((start) => points(start)),
    lines: runs.map((_, index) => points("AA", 8 + 3 * index, 9 + 3 * index)),
    fifty: points("AA", 20, 21),
    fiftyLabel: points("AA", 22, 22),
    limit: points("AA", 30, 31),
    limitLabel: points("AA", 30, 30),
    grid: points("AI", first, first + 3 * mostTicks - 1),
    xTicks: pressureTicks.map((pressure, index) => ({
      label: String(pressure),
      ...points("AC", 8 + index, 8 + index),
    })),
    yTicks: Array.from({ length: mostTicks }, (_, index) => ({
      label: onSheet(sheets.graph, `AH${first + 3 * index}`),
      ...points("AI", first + 3 * index, first + 3 * index),
    })),
  };
}

function pair(start: string): [x: string, y: string] {
  return [start, lettersOf(columnOf(start) + 1)];
}

function writeFittedLines(sheet: Sheet, runs: Runs): void {
  writeColumnHeads(sheet, 7, "AA", ["lines Δp", "height"]);
  runs.forEach(({ readings, wholeTest: { value } }, index) => {
    const made = (formula: string) => `IF(COUNTA(${readings})=0,NA(),IFERROR(${formula},NA()))`;
    for (const [offset, end] of ["dp_min", "dp_max"].entries()) {
      const row = 8 + 3 * index + offset;
      sheet.formula(`AA${row}`, made(`ABS(${value(end)})+0*${value("C")}`), native(decimals(2)));
      sheet.formula(`AB${row}`, made(heightOf(`(${value("C")}*AA${row}^${value("n")})`)), native(decimals(3)));
    }
  });
  const fifty: readonly (readonly [row: number, height: number])[] = [
    [20, 0],
    [21, 1],
    [22, 0.05],
  ];
  for (const [row, height] of fifty)
    sheet.put(`AA${row}`, 50, native(decimals(2))).put(`AB${row}`, height, native(decimals(3)));
}

/** The flows that the scale must hold, its ends, and the limit with its mark. */
function writeScale(sheet: Sheet, runs: Runs): void {
  const ends = (symbol: string, otherwise: string) =>
    runs
      .map(
        ({ readings, wholeTest: { value } }) =>
          `IF(COUNTA(${readings})=0,${otherwise},IFERROR(${value(symbol)},${otherwise}))`,
      )
      .join(",");
  // Without a run, an empty grid from 8 to 1000.
  const none = "9E+99";
  const [lowest, highest] = [ends("q_min", none), ends("q_max", "0")];
  const limited = runs.map((_, index) => onSheet(sheets.results, `${runColumns[index]}${limitedRow}`));
  const limit = runs.reduceRight((later, { wholeTest: { value } }, index) => {
    const flow = `${value("C")}*TargetPressure^${value("n")}*TargetLimit/${limited[index]}`;
    return `IF(ISNUMBER(${limited[index]}),${flow},${later})`;
  }, '""');
  const end = first + listFlows(steps.fine).length - 1;
  const candidates = `$AE$${first}:$AE$${end - 1}`;
  const next = `$AE$${first + 1}:$AE$${end}`;
  const cells: readonly (readonly [cell: string, label: string, formula: string])[] = [
    [scale.lowest, "lowest", `IF(MIN(${lowest})=${none},10,MIN(${lowest},${scale.limit}))`],
    [scale.highest, "highest", `IF(MAX(${highest})=0,950,MAX(${highest},${scale.limit}))`],
    [scale.bottom, "bottom", `LOOKUP(MAX(1,0.95*${scale.lowest}),$AE$${first}:$AE$${end})`],
    [scale.top, "top", `LOOKUP(MIN(700000,1.05*${scale.highest}),${candidates},${next})`],
    [scale.limit, "limit", `IFERROR(${limit},"")`],
  ];
  for (const [cell, label, formula] of cells) {
    const row = cell.replace(/\D/g, "");
    sheet.put(`AA${row}`, label, looks.unit).formula(`AB${row}`, formula, native(decimals(1)));
  }
  for (const [row, factor] of [
    [30, 0.82],
    [31, 1.22],
  ] as const) {
    sheet.formula(`AA${row}`, `IF(${scale.limit}="",NA(),TargetPressure*${factor})`, native(decimals(2)));
    sheet.formula(`AB${row}`, `IF(${scale.limit}="",NA(),${heightOf(scale.limit)})`, native(decimals(3)));
  }
}

/** The numbers along both axes, and a line across the graph for each flow; a blank row keeps the lines apart. */
function writeTicks(sheet: Sheet): void {
  writeColumnHeads(sheet, 7, "AC", ["ticks Δp", "height", "fine", "coarse", "tick", "label", "grid Δp", "height"]);
  pressureTicks.forEach((pressure, index) => {
    sheet.put(`AC${first + index}`, pressure, native(decimals(0))).put(`AD${first + index}`, 0, native(decimals(3)));
  });
  for (const [letter, values] of [
    ["AE", listFlows(steps.fine)],
    ["AF", listFlows(steps.coarse)],
  ] as const)
    values.forEach((flow, index) => sheet.put(`${letter}${first + index}`, flow, native("0.#")));
  const after = (letter: string, values: readonly number[], flow: string) => {
    const end = first + values.length - 1;
    return `LOOKUP(${flow},$${letter}$${first}:$${letter}$${end - 1},$${letter}$${first + 1}:$${letter}$${end})`;
  };
  for (let index = 0; index < mostTicks; index++) {
    const row = first + 3 * index;
    const before = `AG${row - 3}`;
    const [fine, coarse] = [after("AE", listFlows(steps.fine), before), after("AF", listFlows(steps.coarse), before)];
    const next = `IF(${scale.top}/${scale.bottom}>10,${coarse},${fine})`;
    const tick = index === 0 ? scale.bottom : `IF(ISNUMBER(${before}),IF(${next}>${scale.top},"",${next}),"")`;
    sheet.formula(`AG${row}`, tick, native("0.#"));
    sheet.formula(`AH${row}`, `IF(ISNUMBER(AG${row}),AG${row}&"","")`, native());
    for (const [offset, pressure] of [10, 100].entries()) {
      sheet.put(`AI${row + offset}`, pressure, native(decimals(0)));
      sheet.formula(
        `AJ${row + offset}`,
        `IF(ISNUMBER($AG$${row}),${heightOf(`$AG$${row}`)},NA())`,
        native(decimals(3)),
      );
    }
  }
}

/** The flows that an axis with these steps may name, with one beyond. */
function listFlows(mantissas: readonly number[]): number[] {
  return [...decades.flatMap((decade) => mantissas.map((one) => one * 10 ** decade)), 1e6, 2e6];
}
