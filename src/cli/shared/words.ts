import { ErrorValue, withoutFilePrefixes, type CellValue } from "../../workbook/index";

/** A value as a line of a report shows it: numbers to 15 digits as Excel knows them, text in quotes. */
export function shownValue(value: CellValue): string {
  if (value === null) return "blank";
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "number") return String(Number(value.toPrecision(15)));
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return `"${shorten(value)}"`;
}

/** A formula as Excel shows it, on one line and cut where it is long. */
export function shownFormula(text: string): string {
  return `=${shorten(withoutFilePrefixes(text).replace(/\b_xldudf_([A-Z]+)_/gi, "$1."))}`;
}

function shorten(text: string): string {
  const line = text.replace(/\s+/g, " ");
  return line.length > 60 ? `${line.slice(0, 57)}...` : line;
}

/** "1 cell", "3 cells", "1 formula cell". */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** What a total adds for the workbooks that an internal error stopped. */
export function faultsText(count: number): string {
  return count === 0 ? "" : `, ${count} of them because of ${count === 1 ? "an internal error" : "internal errors"}`;
}

/** The first few of a list, and how many more there are. */
export function listed(items: readonly string[], most: number): string {
  const rest = items.length - most;
  return rest > 0 ? `${items.slice(0, most).join(", ")} and ${rest} more` : items.join(", ");
}

/** Lines of text in columns: each as wide as its widest entry, the last one ragged; a column aligns right where `right` says so. */
export function inColumns(rows: readonly (readonly string[])[], right: readonly boolean[] = []): string[] {
  const widths: number[] = [];
  for (const row of rows) row.forEach((text, column) => (widths[column] = Math.max(widths[column] ?? 0, text.length)));
  return rows.map((row) =>
    row
      .map((text, column) => (right[column] ? text.padStart(widths[column] ?? 0) : text.padEnd(widths[column] ?? 0)))
      .join("   ")
      .trimEnd(),
  );
}

const mostLines = 30;

/** The first thirty lines of a long list, and how many more there are. */
export function cutList(lines: readonly string[]): string[] {
  const rest = lines.length - mostLines;
  return rest > 0 ? [...lines.slice(0, mostLines), `… and ${rest} more (--list shows all)`] : [...lines];
}

export function indented(lines: readonly string[]): string[] {
  return lines.map((line) => `  ${line}`);
}
