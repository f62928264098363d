import type { Area, Formula } from "../../model";
import type { NotEvaluated } from "../values/refusal";
import type { Parsed } from "../parse/syntax";
import type { Matrix, Scalar } from "../values/value";

/** How far a cell has come: untouched, on the stack as a suggestion, waiting for others that it really needs, done. */
export type Progress = "new" | "suggested" | "waiting" | "done";

/** A formula cell or a cell of an array's stored range, while the book is evaluated. */
export class Slot {
  /** The cell whose array formula fills or may fill this one. */
  owner: Slot | undefined = undefined;
  progress: Progress = "new";
  value: Scalar = null;
  failure: NotEvaluated | undefined = undefined;
  /** The failure as those that read the cell have it: it began here. */
  failureForOthers: NotEvaluated | undefined = undefined;
  /** All values of an array formula, its own cell first. */
  results: Matrix | undefined = undefined;
  /** The cells that an array formula fills now. */
  filled: Area | undefined = undefined;
  /** Set where a suggestion led into a circle that may not be real: it is then evaluated only when really needed. */
  postponed = false;
  /** The longest chain of cells with add-in calls that ends in this cell. */
  depth = 0;
  /** Add-in calls made while it was evaluated. */
  calls = 0;
  /** The properties of the card that the cell holds: a number of the add-in with every step behind it. Names in lower case. */
  card: ReadonlyMap<string, Scalar> | undefined = undefined;
  /** Depends on the clock, so that the stored value says nothing about today's. */
  onClock = false;
  /** Read an error value from another cell while it was evaluated: an error of its own need not begin here. */
  readsError = false;
  /** Some cell that it rests on, however far back, holds an error value, be it caught on the way. */
  afterError = false;
  /** Its error value was read by another formula: it is no mere gap in a chart. */
  isErrorRead = false;
  /** The rows and columns of an add-in's table of which a formula for one cell shows the first value alone. */
  cutTable: readonly [rows: number, columns: number] | undefined = undefined;
  /** The larger operand of a final + or −: rounding errors of the result are measured against it. */
  scale = 0;

  constructor(
    readonly sheet: number,
    readonly row: number,
    readonly column: number,
    readonly formula: Formula | undefined,
    readonly parsed: Parsed | undefined,
  ) {}

  /** A cell that an array filled in the file and that is blank now, since the array's formula was replaced. */
  static emptied(sheet: number, row: number, column: number): Slot {
    const slot = new Slot(sheet, row, column, undefined, undefined);
    slot.progress = "done";
    return slot;
  }

  get isEmptied(): boolean {
    return !this.formula && !this.owner;
  }

  /** What the cell shows: its own value, or the array's that fills it; blank where the array does not reach it. */
  get shown(): Scalar {
    if (!this.owner) return this.value;
    const { filled, results } = this.owner;
    if (!filled || !results || this.row > filled.bottom || this.column > filled.right) return null;
    return results.at(this.row - filled.top, this.column - filled.left);
  }
}
