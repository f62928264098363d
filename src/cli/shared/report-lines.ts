import { type CellValue, formatCellValue, showFormula } from "../../workbook/index";

/** The longest value or formula in a line of a report. */
const longest = 60;

/** A value as shown in a report line: numbers to Excel's 15 digits unless fewer are asked for. */
export const formatValue = (value: CellValue, digits = 15): string => formatCellValue(value, digits, longest, "...");

/** A formula as shown in a report line. */
export const shortenFormula = (text: string): string => showFormula(text, longest, "...");

/** Lines of text in columns: each as wide as its widest entry, the last ragged; columns marked in `right` are right-aligned. */
export function alignColumns(rows: readonly (readonly string[])[], right: readonly boolean[] = []): string[] {
  const widths: number[] = [];
  for (const row of rows) row.forEach((text, column) => (widths[column] = Math.max(widths[column] ?? 0, text.length)));
  return rows.map((row) =>
    row
      .map((text, column) => (right[column] ? text.padStart(widths[column] ?? 0) : text.padEnd(widths[column] ?? 0)))
      .join("   ")
      .trimEnd(),
  );
}

export const mostLines = 30;

/** The last line of a list that is cut. */
export const describeRest = (rest: number): string => `… and ${rest} more (--list shows all)`;

/** The first thirty lines of a long list, and the number omitted. */
export function cutList(lines: readonly string[]): string[] {
  const rest = lines.length - mostLines;
  return rest > 0 ? [...lines.slice(0, mostLines), describeRest(rest)] : [...lines];
}

export function indentLines(lines: readonly string[]): string[] {
  return lines.map((line) => `  ${line}`);
}
