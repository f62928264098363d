import type { Area, CellValue, Formula } from "../model";
import type { NotEvaluated } from "./refusal";
import type { Parsed } from "./syntax";
import type { Matrix, Scalar } from "./value";

/** How far a cell has come: untouched, on the stack as a suggestion, waiting for others that it really needs, done. */
export type Progress = "new" | "suggested" | "waiting" | "done";

/** A formula cell or a cell of an array's stored range, while the book is evaluated. */
export interface Slot {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  /** What the file stores: compared later, and never used for a formula's value. */
  readonly stored: CellValue;
  readonly formula?: Formula;
  readonly parsed?: Parsed;
  /** The cell whose array formula fills or may fill this one. */
  owner?: Slot;
  progress: Progress;
  value: Scalar;
  failure?: NotEvaluated;
  /** All values of an array formula, its own cell first. */
  results?: Matrix;
  /** The cells that an array formula fills now. */
  filled?: Area;
  /** Set where a suggestion led into a circle that may not be real: it is then evaluated only when really needed. */
  postponed?: boolean;
  /** The longest chain of cells with add-in calls that ends in this cell. */
  depth: number;
  /** Add-in calls made while it was evaluated. */
  calls: number;
  /** The larger operand of a final + or −: rounding errors of the result are measured against it. */
  scale: number;
}
