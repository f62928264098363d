import { stripFilePrefixes } from "./formula/parse/formula-text";
import { type CellValue, ErrorValue } from "./model";

const longest = 80;

/** A value as shown in a sentence: numbers to the given digits, text in quotes and on one line. */
export function formatCellValue(value: CellValue | undefined, digits = 7, most = longest, sign = "…"): string {
  if (value === null || value === undefined) return "blank";
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "number") return String(Number(value.toPrecision(digits)));
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return `"${cutLine(value, most, sign)}"`;
}

/** A number to the given significant digits. */
export function formatFigure(value: number, digits = 4): string {
  return String(Number(value.toPrecision(digits)));
}

/** A formula as Excel shows it, on one line and cut if long. */
export function showFormula(text: string, most = longest, sign = "…"): string {
  return `=${cutLine(stripFilePrefixes(text).replace(/\b_xldudf_([A-Z]+)_/gi, "$1."), most, sign)}`;
}

/** A text on one line, cut if long, with a sign at the end to show it. */
function cutLine(text: string, most = longest, sign = "…"): string {
  const line = text.replace(/\s+/g, " ");
  return line.length > most ? line.slice(0, most - sign.length) + sign : line;
}

/** Cells in the order in which they ask for each other, cut where there are many: every cell of a circle repeats them. */
export function formatRoute(addresses: readonly string[]): string {
  const route = addresses.join(" → ");
  return route.length > 300 ? `${route.slice(0, 300)} …` : route;
}

/** "1 cell", "3 cells", "1 formula cell". */
export function formatCount(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** The first few of a list, and the number of the rest. */
export function formatList(items: readonly string[], most = 5): string {
  const rest = items.length - most;
  return rest > 0 ? `${items.slice(0, most).join(", ")} and ${rest} more` : items.join(", ");
}

/** The addition to a total for workbooks stopped by an internal error. */
export function describeFaults(count: number): string {
  return count === 0 ? "" : `, ${count} of them because of ${count === 1 ? "an internal error" : "internal errors"}`;
}
