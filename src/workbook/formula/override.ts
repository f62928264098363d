import { cellKey, type Book, type CellValue } from "../model";
import type { Overrides } from "./grid";

/** A value to put into a cell in place of what the file holds there. */
export interface CellChange {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
}

/** The changes by sheet and cell; throws a RangeError where a change names a sheet that the book does not have. */
export function overridesOf(book: Book, changes: readonly CellChange[]): Overrides {
  const overrides = new Map<number, Map<number, CellValue>>();
  for (const { sheet, row, column, value } of changes) {
    const place = book.sheets.findIndex(({ name }) => name.toLowerCase() === sheet.toLowerCase());
    if (place < 0) throw new RangeError(`the workbook has no sheet "${sheet}"`);
    overrides.set(place, (overrides.get(place) ?? new Map<number, CellValue>()).set(cellKey(row, column), value));
  }
  return overrides;
}
