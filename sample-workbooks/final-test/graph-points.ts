import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import type { Runs } from "./direction";
import { sheets } from "./places";
import { readingRows } from "./reading-rows";

const count = readingRows.last - readingRows.first + 1;
const first = 8;
const last = first + count - 1;

const pressureTicks = [20, 30, 40, 50, 60, 80];

/** Columns of x and y of one set of points, and its rows. */
export interface Points {
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
export function graphPoints(sheet: Sheet, runs: Runs): GraphPoints {
  section(sheet, 5, ["K", "AF"], "Points of the graph (not printed)");
  sheet.put(
    "K6",
    "#N/A is left out of the graph on purpose: spare rows, runs not made, readings that take no part, ticks beyond the paper.",
    looks.note,
  );
  sheet.merge("K6:AF6");
  const starts = ["K", "M", "O", "Q", "S", "U", "W", "Y"];
  ["depr.", "depr. 2", "press.", "press. 2", ...Array<string>(4).fill("not used")].forEach((title, index) => {
    const [x = "", y = ""] = pair(starts[index] ?? "");
    columnHeads(sheet, 7, x, [`${title} Δp`, "q"]);
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
  fitLines(sheet, runs);
  ticks(sheet);
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

function fitLines(sheet: Sheet, runs: Runs): void {
  columnHeads(sheet, 7, "AA", ["lines Δp", "q"]);
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

function ticks(sheet: Sheet): void {
  columnHeads(sheet, 7, "AC", ["ticks Δp", "q", "ticks Δp", "q"]);
  pressureTicks.forEach((pressure, index) => {
    sheet.put(`AC${8 + index}`, pressure, native(decimals(0))).put(`AD${8 + index}`, 10, native(decimals(0)));
  });
  [20, 50, 200, 500, 2000, 5000].forEach((flow, index) => {
    sheet.put(`AE${8 + index}`, 10, native(decimals(0)));
    sheet.formula(`AF${8 + index}`, `IF(${flow}<$AB$24,${flow},NA())`, native(decimals(0)));
  });
}
