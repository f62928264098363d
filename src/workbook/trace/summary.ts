import { format, isDateFormat } from "numfmt";
import { ErrorValue, type CellValue } from "../model";
import type { Member, Spread } from "./tree";

const longestText = 60;

/** A value inside a sentence: numbers to seven digits, text in quotes. */
export function inWords(value: CellValue): string {
  if (value === null) return "blank";
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "number") return String(Number(value.toPrecision(7))).replace("-", "−");
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return `"${value.length > longestText ? `${value.slice(0, longestText - 1)}…` : value}"`;
}

/** Days between the two epochs that a workbook may count from. */
const daysTo1904 = 1462;

/** A date or time as its cell shows it, "" for every other value. */
export function shownValue(value: CellValue, pattern: string, date1904: boolean): string {
  if (typeof value !== "number" || !isDateFormat(pattern)) return "";
  return format(pattern, value + (date1904 ? daysTo1904 : 0), { throws: false, invalid: String(value) }).trim();
}

/** How many of a range's cells are what, and between which numbers they lie. */
export function spreadOf(members: readonly Member[], cells: number): Spread {
  let [numbers, lowest, highest, filled] = [0, Infinity, -Infinity, 0];
  for (const { value, kind } of members) {
    if (kind !== "blank") filled += 1;
    if (typeof value !== "number") continue;
    numbers += 1;
    lowest = Math.min(lowest, value);
    highest = Math.max(highest, value);
  }
  return { cells, blank: cells - filled, numbers, lowest, highest };
}

/** Input cells in the order of the workbook. */
export function inputsOf<Cell extends { readonly sheet: number; readonly row: number; readonly column: number }>(
  cells: readonly Cell[],
  address: (cell: Cell) => string,
): string[] {
  return [...cells].sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column).map(address);
}
