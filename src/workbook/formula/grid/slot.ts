import { type Area, ErrorValue, type Formula } from "../../model";
import type { Parsed } from "../parse/syntax";
import type { NotEvaluated } from "../values/refusal";
import type { Matrix, Scalar } from "../values/value";

/** The state of a cell: untouched, on the stack as a suggestion, waiting for cells it really needs, or done. */
type Progress = "new" | "suggested" | "waiting" | "done";

/** Rows and columns of a result, and those for which its formula has cells. */
export interface CutTable {
  readonly whole: readonly [rows: number, columns: number];
  readonly shown: readonly [rows: number, columns: number];
}

/** A formula cell or a cell of an array's stored range, while the book is evaluated. */
export class Slot {
  /** The cell whose array formula fills or may fill this one. */
  owner: Slot | undefined = undefined;
  progress: Progress = "new";
  value: Scalar = null;
  failure: NotEvaluated | undefined = undefined;
  /** The failure as seen by readers of the cell: it originated here. */
  failureForOthers: NotEvaluated | undefined = undefined;
  /** All values of an array formula, its own cell first. */
  results: Matrix | undefined = undefined;
  /** The cells that an array formula fills now. */
  filled: Area | undefined = undefined;
  /** How many cells were given to the array formula before the pass began, as far as it is known to reach. */
  claimed = 0;
  /** Set if a suggestion led into a circle that may not be real: it is then evaluated only when really needed. */
  postponed = false;
  /** The longest chain of cells with add-in calls that ends in this cell. */
  depth = 0;
  /** Add-in calls made while it was evaluated. */
  calls = 0;
  /** The properties of the card that the cell holds: a number of the add-in with every step behind it. Names in lower case. */
  card: ReadonlyMap<string, Scalar> | undefined = undefined;
  /** Where it closes a circle that is calculated by iteration: what the cells of the circle read of it in this pass. */
  seed: { readonly value: Scalar; readonly change: number } | undefined = undefined;
  /** The numbers of other workbooks of which it read a value that this file keeps. */
  externals: ReadonlySet<number> = new Set();
  /** Depends on the clock, so that the stored value says nothing about today's. */
  onClock = false;
  /** Read an error value from another cell during evaluation, so its own error need not originate here. */
  readsError = false;
  /** Some cell it depends on, at any remove, holds an error value, even if caught along the way. */
  afterError = false;
  /** Its error value was read by another formula: it is no mere gap in a chart. */
  isErrorRead = false;
  /** The add-in's table of which the formula's cells show a part only. */
  cutTable: CutTable | undefined = undefined;
  /** The larger operand of a final + or −, or the largest summand: rounding errors of the result are measured against it. */
  scale = 0;
  /** The size of the largest number that it read. */
  largest = 0;
  /** How far from the stored one a number may be that was found by iteration, by it or by what it reads. */
  tolerance = 0;

  constructor(
    readonly sheet: number,
    readonly row: number,
    readonly column: number,
    readonly formula: Formula | undefined,
    readonly parsed: Parsed | undefined,
  ) {}

  /** A cell that an array filled in the file and that is blank now, since the array's formula was replaced. */
  static createEmptied(sheet: number, row: number, column: number): Slot {
    const slot = new Slot(sheet, row, column, undefined, undefined);
    slot.progress = "done";
    return slot;
  }

  get isEmptied(): boolean {
    return !this.formula && !this.owner;
  }

  /** What the cell shows: its own value, or the array's that fills it; blank where the array does not reach it. */
  get shown(): Scalar {
    if (this.seed) return this.seed.value;
    if (!this.owner) return this.value;
    const { filled, results } = this.owner;
    if (!filled || !results || this.row > filled.bottom || this.column > filled.right) return null;
    return results.at(this.row - filled.top, this.column - filled.left);
  }
}

/** What a cell inherits from those it reads, besides their values. */
export interface HandedOn {
  depth: number;
  onClock: boolean;
  readsError: boolean;
  afterError: boolean;
  /** The size of the largest number among them. */
  largest: number;
  tolerance: number;
}

/** What nothing that was read hands on. */
export const handNothingOn = (): HandedOn => ({
  depth: 0,
  onClock: false,
  readsError: false,
  afterError: false,
  largest: 0,
  tolerance: 0,
});

/** What an evaluation notes while it reads cells, for the cell that it evaluates or for a whole area read for more than one. */
export class ReadingNotes {
  /** The cell being evaluated. */
  current: Slot | undefined;
  private area: HandedOn | undefined;

  /** What the cells read in the meantime propagate, apart from what the current cell already has. */
  collectHandedOn(read: () => void): Readonly<HandedOn> {
    const area = handNothingOn();
    this.area = area;
    try {
      read();
    } finally {
      this.area = undefined;
    }
    return area;
  }

  /** Hands on to the cell being evaluated what an area read before has. */
  takeOver({ depth, onClock, readsError, afterError, largest, tolerance }: Readonly<HandedOn>): void {
    if (!this.current) return;
    this.current.depth = Math.max(this.current.depth, depth);
    this.current.onClock ||= onClock;
    this.current.readsError ||= readsError;
    this.current.afterError ||= afterError;
    this.current.largest = Math.max(this.current.largest, largest);
    this.current.tolerance = Math.max(this.current.tolerance, tolerance);
  }

  /** Records what is propagated by the cell that holds the value or, in an array, whose formula gave it. */
  takeFrom(source: Slot): void {
    const reader = this.area ?? this.current;
    if (!reader) return;
    reader.depth = Math.max(reader.depth, source.depth);
    reader.onClock ||= source.onClock;
    reader.tolerance = Math.max(reader.tolerance, source.tolerance, source.seed?.change ?? 0);
  }

  /** Records the size of a number that is read, and an error or what depends on one; the slot is undefined for a constant. */
  noteValue(value: Scalar, slot: Slot | undefined): void {
    const reader = this.area ?? this.current;
    if (!reader) return;
    if (typeof value === "number") reader.largest = Math.max(reader.largest, Math.abs(value));
    const source = slot?.owner ?? slot;
    // Where an array failed as a whole, its other cells are blank, and what reads them goes on from an error too.
    const failed = value instanceof ErrorValue || (value === null && source?.value instanceof ErrorValue);
    reader.readsError ||= failed;
    reader.afterError ||= failed || source?.afterError === true;
    if (slot && failed) slot.isErrorRead = true;
  }
}
