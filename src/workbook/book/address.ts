import { limits } from "../file/limits";
import type { Area } from "../model";
import type { SheetArea } from "./area";

/** The letters of a zero-based column: 0 is A, 26 is AA. */
export function formatColumn(column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** The zero-based column of its letters, in any case. */
export function parseColumn(letters: string): number {
  let column = 0;
  // The codes of a and A differ only in the bit of 32.
  for (let at = 0; at < letters.length; at++) column = column * 26 + (letters.charCodeAt(at) & ~32) - 64;
  return column - 1;
}

/** A cell's address without its sheet: row 0, column 0 is A1. */
export function formatCellAddress(row: number, column: number): string {
  return formatColumn(column) + String(row + 1);
}

/** The address of an area without its sheet: A1 or A1:B3. */
export function formatAreaAddress(area: Area): string {
  const first = formatCellAddress(area.top, area.left);
  const last = formatCellAddress(area.bottom, area.right);
  return first === last ? first : `${first}:${last}`;
}

/** A sheet's name as written in formulas, in quotes if needed. */
export function quoteSheetName(name: string): string {
  const plain = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) && !/^([a-z]{1,3}\d+|r\d*c?\d*|c\d*)$/i.test(name);
  return plain ? name : `'${name.replaceAll("'", "''")}'`;
}

/** The full address used in reports: Sheet!B4. */
export function formatFullAddress(sheetName: string, row: number, column: number): string {
  return `${quoteSheetName(sheetName)}!${formatCellAddress(row, column)}`;
}

/** The place of an A1 address without dollars ("AB12"), or undefined if it is not one. Hand-written because it runs once per cell. */
export function parsePlace(address: string): { row: number; column: number } | undefined {
  let column = 0;
  let row = 0;
  let at = 0;
  for (; at < address.length; at++) {
    const code = address.charCodeAt(at) & ~32;
    if (code < 65 || code > 90) break;
    column = column * 26 + code - 64;
  }
  const digitsAt = at;
  for (; at < address.length; at++) {
    const digit = address.charCodeAt(at) - 48;
    if (digit < 0 || digit > 9) return undefined;
    row = row * 10 + digit;
  }
  if (digitsAt === 0 || digitsAt === at) return undefined;
  return row >= 1 && row <= limits.rows && column <= limits.columns ? { row: row - 1, column: column - 1 } : undefined;
}

/** The area of "A1:C9" or "A1", corners in any order. */
export function parseArea(text: string): Area | undefined {
  const plain = text.replaceAll("$", "");
  const colon = plain.indexOf(":");
  const first = parsePlace(colon < 0 ? plain : plain.slice(0, colon));
  const last = colon < 0 ? first : parsePlace(plain.slice(colon + 1));
  if (!first || !last) return undefined;
  return {
    top: Math.min(first.row, last.row),
    left: Math.min(first.column, last.column),
    bottom: Math.max(first.row, last.row),
    right: Math.max(first.column, last.column),
  };
}

/** Sheet!B4:B9. */
export function formatSheetArea(area: SheetArea, sheetName: string): string {
  return `${quoteSheetName(sheetName)}!${formatAreaAddress(area)}`;
}

/** The area of "Sheet!B4:B9" or "'A sheet'!B4" among these sheets: what formatSheetArea and formatFullAddress write. */
export function parseSheetArea(text: string, sheets: readonly { readonly name: string }[]): SheetArea | undefined {
  const mark = text.lastIndexOf("!");
  const name = text.slice(0, mark).replace(/^'|'$/g, "").replaceAll("''", "'");
  const sheet = sheets.findIndex((one) => one.name === name);
  const area = parseArea(text.slice(mark + 1));
  return area && sheet >= 0 ? { sheet, ...area } : undefined;
}
