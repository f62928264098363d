import type { AddressStyle, FormulaKind } from "../references/frame";
import type { Grid } from "../grid/grid";
import type { Place } from "../references/references";
import type { Matrix, Scalar, Value } from "../values/value";

/** What a function may know about the call: the cell, the book, the clock. */
export interface Caller {
  readonly name: string;
  readonly place: Place;
  readonly grid: Grid;
  /** The clock of this evaluation; undefined: the functions that need it are refused. */
  readonly now: Date | undefined;
  /** What the formula is: ordinary, in braces, or dynamic. */
  readonly kind: FormulaKind;
  /** True where the formula is calculated as an array. */
  readonly inArray: boolean;
  /** A reference read into memory, anything else as it is; errors and unions come back as error values. */
  scalars(value: Value): Scalar | Matrix;
  /** One value: implicit intersection outside array formulas. */
  scalar(value: Value): Scalar;
  /** The reference that a text such as "Sheet1!A1:B2", "R1C1" or a defined name means, or undefined. */
  referenceOfText(text: string, style: AddressStyle): Value | undefined;
}
