import type { SheetArea } from "../../book/area";
import { type CellValue, type ErrorCode, ErrorValue } from "../../model";
import { spendArray } from "../work-limits";

/** One value as a formula sees it; `null` is a blank, which only becomes 0 or "" where an operator or a cell asks for one. */
export type Scalar = CellValue;

/**
 * A rectangle of values, row by row.
 *
 * A whole column in an array calculation is kept only as far as the workbook is used: `beyond` then says how many rows the
 * array really has and the value of all the others.
 */
export class Matrix {
  constructor(
    readonly rows: number,
    readonly columns: number,
    readonly values: readonly Scalar[],
    /** True for an array constant and what is computed from it: it stays an array outside array formulas too. */
    readonly constant = false,
    readonly beyond?: { readonly rows: number; readonly value: Scalar },
    /** True where the values were read from cells as they are, so that blanks are known to be blank cells. */
    readonly fromCells = false,
  ) {
    spendArray(values.length);
  }

  at(row: number, column: number): Scalar {
    return this.values[row * this.columns + column] ?? null;
  }
}

/** One area, or several (a union, or the same area on several sheets). */
export class Reference {
  constructor(
    readonly areas: readonly SheetArea[],
    readonly acrossSheets = false,
  ) {}

  /** The only area, or undefined for a union. */
  get area(): SheetArea | undefined {
    return this.areas.length === 1 ? this.areas[0] : undefined;
  }
}

/** A LAMBDA with the names that it can see; `call` is bound by the interpreter. */
export class Lambda {
  constructor(
    readonly parameters: readonly string[],
    readonly call: (argumentsGiven: readonly Value[]) => Value,
  ) {}
}

/** An argument left empty between two commas. */
export class Omitted {
  static readonly value = new Omitted();
}

export type Value = Scalar | Matrix | Reference | Lambda | Omitted;

/** Excel's error values, one object each; errors with their own reason are made where they occur. */
export const errors = {
  null: new ErrorValue("#NULL!"),
  division: new ErrorValue("#DIV/0!"),
  value: new ErrorValue("#VALUE!"),
  reference: new ErrorValue("#REF!"),
  name: new ErrorValue("#NAME?"),
  number: new ErrorValue("#NUM!"),
  notAvailable: new ErrorValue("#N/A"),
  spill: new ErrorValue("#SPILL!"),
  calculation: new ErrorValue("#CALC!"),
};

/** The error value of a code, for literals in formulas. */
export function errorOfCode(code: string): ErrorValue {
  return Object.values(errors).find((error) => error.code === code) ?? new ErrorValue(code as ErrorCode);
}

/** The least normal double: Excel keeps nothing smaller but 0. */
const leastNormal = 2.2250738585072014e-308;

/** A number as a cell can hold it: overflow or undefined becomes #NUM!. */
export function requireFinite(value: number): number | ErrorValue {
  if (!Number.isFinite(value)) return errors.number;
  return Math.abs(value) < leastNormal ? 0 : value;
}
