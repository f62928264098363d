import { cellKey, type Area, type CellValue } from "../model";
import type { WorkDone } from "./values/work";

/** What became of one cell: a value, or the reason why there is none. */
export type Outcome =
  | { readonly evaluated: true; readonly value: CellValue }
  | {
      readonly evaluated: false;
      readonly reason: string;
      /** The address of the cell where the trouble began, when it is another one. */
      readonly origin?: string;
    };

/** A cell that a formula computes: the formula's own cell or one that its array fills. */
export interface EvaluatedCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  /** With the sheet: Results!B4. */
  readonly address: string;
  readonly role: "formula" | "filled";
  readonly outcome: Outcome;
  /** The larger operand of a final addition or subtraction; 0 for other formulas. */
  readonly scale: number;
  /** The address of the formula that computes it: its own, or that of the array that fills it. */
  readonly source: string;
  /** That formula read an error value from another cell. */
  readonly readsError: boolean;
  /** Some cell that the formula rests on, however far back, holds an error value. */
  readonly afterError: boolean;
  /** Another formula read the error value that it holds. */
  readonly isErrorRead: boolean;
  /** Depends on the clock: the stored value is that of another moment. */
  readonly onClock: boolean;
  /** The rows and columns of an add-in's table of which the formula, written for one cell, shows the first value alone. */
  readonly cutTable: readonly [rows: number, columns: number] | undefined;
  /** Holds an add-in call written as text while the add-in was absent. */
  readonly plainAddIn: boolean;
}

/** The result of evaluating a book. */
export interface Evaluation {
  readonly cells: readonly EvaluatedCell[];
  readonly spills: readonly { readonly address: string; readonly area: Area }[];
  /** Addresses of each circular reference, in the order in which the cells ask for each other. */
  readonly cycles: readonly (readonly string[])[];
  /** What the calculation took of what it may take. */
  readonly work: WorkDone;
  /** Add-in calls made, cells that make them, and the longest chain of such cells from inputs to a result. */
  readonly addIn: { readonly calls: number; readonly cells: number; readonly depth: number };
  /** The outcome of a cell that a formula computes, undefined for every other cell. */
  outcome(sheet: number, row: number, column: number): Outcome | undefined;
}

/** Gathers what a report needs into an Evaluation. */
export function evaluationOf(parts: Omit<Evaluation, "outcome">): Evaluation {
  const bySheet = new Map<number, Map<number, Outcome>>();
  for (const { sheet, row, column, outcome } of parts.cells) {
    let outcomes = bySheet.get(sheet);
    if (!outcomes) bySheet.set(sheet, (outcomes = new Map<number, Outcome>()));
    outcomes.set(cellKey(row, column), outcome);
  }
  return { ...parts, outcome: (sheet, row, column) => bySheet.get(sheet)?.get(cellKey(row, column)) };
}
