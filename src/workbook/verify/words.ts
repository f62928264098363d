import { withoutFilePrefixes } from "../formula/parse/formula-text";
import { ErrorValue, type CellValue } from "../model";

const longest = 80;

/** A value as a sentence shows it: numbers to seven digits, text in quotes. */
export function shown(value: CellValue | undefined): string {
  if (value === null || value === undefined) return "blank";
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "number") return String(Number(value.toPrecision(7)));
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return `"${cut(value)}"`;
}

/** A number with so many significant digits. */
export function figure(value: number, digits = 4): string {
  return String(Number(value.toPrecision(digits)));
}

/** A formula as Excel shows it, cut where it is long. */
export function shownFormula(text: string): string {
  return `=${cut(withoutFilePrefixes(text).replace(/\b_xldudf_([A-Z]+)_/gi, "$1."))}`;
}

function cut(text: string): string {
  const line = text.replace(/\s+/g, " ");
  return line.length > longest ? `${line.slice(0, longest - 1)}…` : line;
}

/** "1 cell", "3 cells". */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** The first few of a list, and how many more there are. */
export function listed(items: readonly string[], most = 5): string {
  const rest = items.length - most;
  return rest > 0 ? `${items.slice(0, most).join(", ")} and ${rest} more` : items.join(", ");
}
