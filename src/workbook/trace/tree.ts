import type { CellValue } from "../model";
import type { FunctionNote } from "./function-notes";

/** One cell of a range, as the trace lists it. */
export interface Member {
  readonly address: string;
  readonly value: CellValue;
  readonly kind: "formula" | "filled" | "input" | "blank";
}

/** Where a figure leads on to: another place of the trace, and what it is read for. */
export interface Branch {
  readonly role: string;
  readonly node: number;
}

/** What a trace says about several cells at once. */
export interface Spread {
  readonly cells: number;
  readonly blank: number;
  readonly numbers: number;
  readonly lowest: number;
  readonly highest: number;
}

/**
 * One place of a trace: a cell, or a range of cells that are read together.
 *
 * formula: a cell with a formula; formulas: several with the same formula, each in its own row or column; spilled: filled by a formula
 * elsewhere; range: cells of different kinds; input: typed in; blank: nothing there.
 */
export interface Place {
  readonly kind: "formula" | "formulas" | "spilled" | "range" | "input" | "blank";
  /** Sheet!B4, or Sheet!B4:B9. */
  readonly address: string;
  /** The defined name of just this cell or range. */
  readonly name: string;
  /** What stands beside and above it. */
  readonly label: string;
  readonly symbol: string;
  readonly unit: string;
  /** The value of a single cell. */
  readonly value: CellValue;
  /** Dates and the like as the sheet shows them; "" where the value says it best itself. */
  readonly shown: string;
  readonly notEvaluated?: string;
  /** For a range. */
  readonly spread?: Spread;
  readonly members?: readonly Member[];
  /** The formula as it is typed in Excel. */
  readonly formula?: string;
  /** For several formulas: the cell whose formula is shown. */
  readonly example?: string;
  readonly words?: string;
  /** Why the branches of IF and its like that counted did. */
  readonly reasons: readonly string[];
  readonly functions: readonly FunctionNote[];
  /** The source that the row of a table names for itself. */
  readonly source?: string;
  readonly notes: readonly string[];
  readonly branches: readonly Branch[];
  /** What it rests on is not shown, since the trace was asked to end here. */
  readonly cut: boolean;
}

/** From a cell back to what was typed in: every place once; `places[0]` is the cell that was asked for. */
export interface Trace {
  readonly places: readonly Place[];
  /** The cells with typed values that it rests on, in the order of the workbook, blank ones left out. */
  readonly inputs: readonly string[];
}
