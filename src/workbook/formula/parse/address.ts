import type { Area } from "../../model";

/** The letters of a zero-based column: 0 is A, 26 is AA. */
export function columnLetters(column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** The zero-based column of its letters, in any case. */
export function columnOfLetters(letters: string): number {
  let column = 0;
  for (const letter of letters.toUpperCase()) column = column * 26 + letter.charCodeAt(0) - 64;
  return column - 1;
}

/** A cell's address without its sheet: row 0, column 0 is A1. */
export function cellAddress(row: number, column: number): string {
  return columnLetters(column) + String(row + 1);
}

/** The address of an area without its sheet: A1 or A1:B3. */
export function areaAddress(area: Area): string {
  const first = cellAddress(area.top, area.left);
  const last = cellAddress(area.bottom, area.right);
  return first === last ? first : `${first}:${last}`;
}

/** A sheet's name as formulas write it, in quotes where it needs them. */
export function quotedSheetName(name: string): string {
  const plain = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name) && !/^([a-z]{1,3}\d+|r\d*c?\d*|c\d*)$/i.test(name);
  return plain ? name : `'${name.replaceAll("'", "''")}'`;
}

/** The full address that reports use: Sheet!B4. */
export function fullAddress(sheetName: string, row: number, column: number): string {
  return `${quotedSheetName(sheetName)}!${cellAddress(row, column)}`;
}
