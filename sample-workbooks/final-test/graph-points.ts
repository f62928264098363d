import { lettersOf, columnOf, onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import type { DirectionPlaces } from "./direction";
import { sheets } from "./places";
import { readingRows } from "./steps";

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
  readonly used: readonly [Points, Points];
  readonly unused: readonly [Points, Points];
  readonly lines: readonly [Points, Points];
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
export function graphPoints(sheet: Sheet, directions: readonly [DirectionPlaces, DirectionPlaces]): GraphPoints {
  section(sheet, 5, ["K", "X"], "Points of the graph (not printed)");
  sheet.put(
    "K6",
    "#N/A is left out of the graph on purpose: spare rows, readings that take no part, ticks beyond the paper.",
    looks.note,
  );
  sheet.merge("K6:X6");
  const starts = ["K", "M", "O", "Q"];
  ["depr.", "press.", "not used", "not used"].forEach((title, index) => {
    const [x = "", y = ""] = pair(starts[index] ?? "");
    columnHeads(sheet, 7, x, [`${title} Δp`, "q"]);
    const direction = directions[index % 2];
    if (!direction) return;
    const shown = index < 2 ? '<>"no"' : '="no"';
    for (let row = first; row <= last; row++) {
      const { induced, flow, use } = direction.reading(row - first);
      const show = (value: string) => `IF(COUNT(${induced},${flow})<2,NA(),IF(${use}${shown},${value},NA()))`;
      sheet.formula(`${x}${row}`, show(`ABS(${induced})`), native(decimals(2)));
      sheet.formula(`${y}${row}`, show(flow), native(decimals(1)));
    }
  });
  const points = (start: string, from = first, to = last): Points => {
    const [x, y] = pair(start);
    return { x: onSheet(sheets.graph, `${x}${from}:${x}${to}`), y: onSheet(sheets.graph, `${y}${from}:${y}${to}`) };
  };
  fitLines(sheet, directions);
  ticks(sheet);
  return {
    used: [points("K"), points("M")],
    unused: [points("O"), points("Q")],
    lines: [points("S", 8, 9), points("S", 11, 12)],
    fifty: points("S", 14, 15),
    fiftyLabel: points("S", 16, 16),
    xTicks: pressureTicks.map((pressure, index) => ({ label: String(pressure), ...points("U", 8 + index, 8 + index) })),
    yTicks: points("W", 8, 13),
  };
}

function pair(start: string): [x: string, y: string] {
  return [start, lettersOf(columnOf(start) + 1)];
}

function fitLines(sheet: Sheet, directions: readonly [DirectionPlaces, DirectionPlaces]): void {
  columnHeads(sheet, 7, "S", ["lines Δp", "q"]);
  directions.forEach(({ wholeTest: { value } }, index) => {
    for (const [offset, end] of ["dp_min", "dp_max"].entries()) {
      const row = 8 + 3 * index + offset;
      sheet.formula(`S${row}`, `IFERROR(ABS(${value(end)})+0*${value("C")},NA())`, native(decimals(2)));
      sheet.formula(`T${row}`, `IFERROR(${value("C")}*S${row}^${value("n")},NA())`, native(decimals(1)));
    }
  });
  sheet.put("S14", 50, native(decimals(2))).put("S15", 50, native(decimals(2)));
  sheet.put("T14", 10, native(decimals(1))).formula("T15", "0.999*T18", native(decimals(1)));
  sheet.put("S16", 50, native(decimals(2))).formula("T16", "0.85*T18", native(decimals(1)));
  const largest = "MAX(10,IFERROR(T9,10),IFERROR(T12,10))";
  sheet.put("S18", "top", looks.unit);
  sheet.formula("T18", `IF(${largest}<1000,1000,IF(${largest}<10000,10000,100000))`, native(decimals(0)));
}

function ticks(sheet: Sheet): void {
  columnHeads(sheet, 7, "U", ["ticks Δp", "q", "ticks Δp", "q"]);
  pressureTicks.forEach((pressure, index) => {
    sheet.put(`U${8 + index}`, pressure, native(decimals(0))).put(`V${8 + index}`, 10, native(decimals(0)));
  });
  [20, 50, 200, 500, 2000, 5000].forEach((flow, index) => {
    sheet.put(`W${8 + index}`, 10, native(decimals(0)));
    sheet.formula(`X${8 + index}`, `IF(${flow}<$T$18,${flow},NA())`, native(decimals(0)));
  });
}
