import type { Area, CellValue } from "../../model";

/** A new value for one cell of a sheet, its place zero-based; `array` is the new range of a dynamic array's formula. */
export interface SheetPatch {
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  readonly array?: Area;
  /** The cell loses its formula and keeps the value, and so its look. */
  readonly freeze?: true;
}

/** A new value for one cell of the workbook; `sheet` is the sheet's index. */
export interface CellPatch extends SheetPatch {
  readonly sheet: number;
}
