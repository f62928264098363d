import { type Area, buildCellKey, type Book, type CellValue, type Sheet } from "../../model";
import { formatAreaAddress, formatCellAddress } from "../../book/address";
import type { Overrides } from "./grid";
import { isInside, isSingleCell } from "../../book/area";

/** A value to put into a cell instead of what the file holds. */
export interface CellChange {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
}

/**
 * The changes by sheet and cell; throws a RangeError where a change names a sheet that the book does not have, or part of an array
 * formula in braces.
 */
export function groupOverrides(book: Book, changes: readonly CellChange[]): Overrides {
  const overrides = new Map<number, Map<number, CellValue>>();
  const arrays = new Map<number, readonly Area[]>();
  for (const { sheet, row, column, value } of changes) {
    const place = book.sheets.findIndex(({ name }) => name.toLowerCase() === sheet.toLowerCase());
    if (place < 0) throw new RangeError(`the workbook has no sheet "${sheet}"`);
    const braced = arrays.get(place) ?? listBracedArrays(book.sheets[place]);
    arrays.set(place, braced);
    const refusal = findArrayAround(braced, row, column);
    if (refusal !== undefined) throw new RangeError(refusal);
    overrides.set(place, (overrides.get(place) ?? new Map<number, CellValue>()).set(buildCellKey(row, column), value));
  }
  return overrides;
}

/** Why a cell cannot be changed on its own: it is part of a braced array formula, which Excel changes only as a whole. */
export const partOfArray = (sheet: Sheet | undefined, row: number, column: number): string | undefined =>
  findArrayAround(listBracedArrays(sheet), row, column);

function listBracedArrays(sheet: Sheet | undefined): Area[] {
  return [...(sheet?.cells.values() ?? [])].flatMap(({ formula }) => {
    const { array, dynamic } = formula ?? {};
    return array && !dynamic && !isSingleCell(array) ? [array] : [];
  });
}

function findArrayAround(braced: readonly Area[], row: number, column: number): string | undefined {
  const array = braced.find((one) => isInside(one, row, column));
  return (
    array &&
    `${formatCellAddress(row, column)} is part of the array formula in ${formatAreaAddress(array)}, which Excel changes only as a whole`
  );
}
