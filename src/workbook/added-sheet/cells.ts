import { formatAreaAddress, formatCellAddress } from "../book/address";
import { encodeText } from "../file/xml/text";
import { type CellValue, ErrorValue } from "../model";

const lineHeight = 12.75;
/** Excel's maximum row height. */
const tallest = 409;

/** Height of a row whose texts wrap, from how many characters a line of each column takes. */
export function estimateHeight(texts: readonly string[], lineLengths: readonly number[]): number {
  const lines = texts.map((text, place) => Math.ceil(text.length / (lineLengths[place] ?? 1)));
  return Math.min(tallest, Math.max(1, ...lines) * lineHeight + 4);
}

export function writeColumns(widths: readonly number[]): string {
  const columns = widths.map(
    (width, place) => `<col min="${place + 1}" max="${place + 1}" width="${width}" customWidth="1"/>`,
  );
  return `<cols>${columns.join("")}</cols>`;
}

/** A row of a sheet's part; rows are counted from 1, columns from 0. */
export const writeRow = (row: number, height: number, cells: readonly string[]): string =>
  `<row r="${row}" ht="${height}" customHeight="1">${cells.join("")}</row>`;
export const formatRange = (top: number, left: number, bottom: number, right: number): string =>
  formatAreaAddress({ top: top - 1, left, bottom: bottom - 1, right });

export function writeTextCell(row: number, column: number, text: string, style: number): string {
  const address = formatCellAddress(row - 1, column);
  if (text === "") return `<c r="${address}" s="${style}"/>`;
  const space = text !== text.trim() || text.includes("\n") ? ' xml:space="preserve"' : "";
  return `<c r="${address}" s="${style}" t="inlineStr"><is><t${space}>${encodeText(text)}</t></is></c>`;
}

export function writeValueCell(row: number, column: number, value: CellValue, style: number): string {
  const address = formatCellAddress(row - 1, column);
  if (value instanceof ErrorValue) return writeTextCell(row, column, value.code, style);
  if (typeof value === "number") return `<c r="${address}" s="${style}"><v>${String(value)}</v></c>`;
  if (typeof value === "boolean") return `<c r="${address}" s="${style}" t="b"><v>${value ? 1 : 0}</v></c>`;
  return writeTextCell(row, column, value ?? "", style);
}

/** The range with absolute addresses. */
export const fixAddresses = (range: string): string => range.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");
