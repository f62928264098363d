import type { Problem } from "../functions/cells/rule-codes";

/** Excel's error values, as shown in a cell. */
export type ErrorCode =
  | "#NULL!"
  | "#DIV/0!"
  | "#VALUE!"
  | "#REF!"
  | "#NAME?"
  | "#NUM!"
  | "#N/A"
  | "#SPILL!"
  | "#CALC!"
  | "#GETTING_DATA"
  | "#FIELD!"
  | "#BLOCKED!"
  | "#CONNECT!"
  | "#UNKNOWN!"
  | "#BUSY!";

/** An error as a cell value; `reason` is the explanation for people, `problem` the same as data if it came from the add-in. */
export class ErrorValue {
  constructor(
    readonly code: ErrorCode,
    readonly reason = "",
    readonly problem?: Problem,
  ) {}
}

/** What a cell can hold. `null` is a blank cell, which is neither 0 nor "". */
export type CellValue = number | string | boolean | ErrorValue | null;

/** Zero-based and inclusive, so A1 is row 0, column 0. */
export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** A formula as stored: without the leading "=", shared formulas already expanded to each cell. */
export interface Formula {
  readonly text: string;
  /** The stored result range of an array formula (legacy {=…} or dynamic); only its top-left cell carries the formula. */
  readonly array?: Area;
  /** True where the cell is marked as a dynamic array (cell metadata XLDAPR), so that its range may grow and shrink. */
  readonly dynamic?: boolean;
  /** True for a what-if data table, which is not a formula in the ordinary sense. */
  readonly dataTable?: boolean;
}

export interface Cell {
  readonly row: number;
  readonly column: number;
  /** The value as stored in the file: for a formula, the result computed by the program that saved it. */
  readonly value: CellValue;
  readonly formula?: Formula;
  /** The number format code, "General" when none. */
  readonly format: string;
}

export interface Sheet {
  readonly name: string;
  readonly visibility: "visible" | "hidden" | "veryHidden";
  /** Keyed by buildCellKey(row, column); only cells stored in the file. */
  readonly cells: Map<number, Cell>;
  readonly hiddenRows: Set<number>;
  readonly hiddenColumns: Set<number>;
  /** Rows hidden by a filter are also hidden rows; SUBTOTAL and AGGREGATE distinguish them. */
  readonly filteredRows: Set<number>;
  readonly mergedAreas: readonly Area[];
}

export interface DefinedName {
  readonly name: string;
  /** The sheet's index for a sheet-level name, undefined for the whole workbook. */
  readonly sheet?: number;
  readonly text: string;
}

export interface Table {
  readonly name: string;
  readonly sheet: number;
  /** Header and totals rows included. */
  readonly area: Area;
  readonly columns: readonly string[];
  readonly headerRows: number;
  readonly totalsRows: number;
}

/** A sheet of another workbook, with the values that this one keeps of it. */
export interface ExternalSheet {
  readonly name: string;
  /** Keyed by buildCellKey; undefined where nothing is kept. */
  readonly cells: ReadonlyMap<number, CellValue> | undefined;
}

/** Another workbook to which formulas refer, [1] being the first. */
export interface ExternalBook {
  /** Its file's name, without folders. */
  readonly file: string;
  readonly sheets: readonly ExternalSheet[];
  readonly names: readonly DefinedName[];
}

/** A workbook in memory: what is stored, nothing computed. */
export interface Book {
  readonly sheets: readonly Sheet[];
  readonly names: readonly DefinedName[];
  readonly tables: readonly Table[];
  readonly date1904: boolean;
  /** Circles of formulas are calculated again and again, so often at most or until no number changes by more. */
  readonly iteration?: { readonly count: number; readonly change: number };
  /** Other workbooks by the number that formulas give them; undefined where there are none. */
  readonly externals?: readonly ExternalBook[];
  /** Every cell keeps only the digits shown by its format ("precision as displayed"). */
  readonly precisionAsDisplayed?: boolean;
}

const columnsOfExcel = 16_384;

/** One number for a cell's place, so that maps stay flat and fast. */
export function buildCellKey(row: number, column: number): number {
  return row * columnsOfExcel + column;
}

/** The inverse of buildCellKey. */
export function placeOfKey(key: number): { row: number; column: number } {
  return { row: Math.floor(key / columnsOfExcel), column: key % columnsOfExcel };
}
