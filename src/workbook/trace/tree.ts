import type { Place } from "../book/area";
import { type CellValue, ErrorValue } from "../model";
import type { FunctionNote } from "./function-notes";

/** One cell of a range, as listed in the trace. */
export interface Member {
  readonly address: string;
  readonly value: CellValue;
  readonly kind: "formula" | "filled" | "input" | "blank";
}

/** A figure's precedent: another place of the trace, and its role. */
export interface Branch {
  readonly role: string;
  readonly node: number;
}

/** What a trace says about several cells at once. */
interface Spread {
  readonly cells: number;
  readonly blank: number;
  readonly numbers: number;
  readonly lowest: number;
  readonly highest: number;
}

/**
 * One place of a trace: a cell, or a range of cells read together.
 *
 * formula: a cell with a formula; formulas: several with the same formula, each in its own row or column; spilled: filled by a formula
 * elsewhere; range: cells of different kinds; input: typed in; blank: nothing there.
 */
export interface TracedPlace {
  readonly kind: "formula" | "formulas" | "spilled" | "range" | "input" | "blank";
  /** Sheet!B4, or Sheet!B4:B9. */
  readonly address: string;
  /** The defined name of exactly this cell or range. */
  readonly name: string;
  /** The words beside and above it. */
  readonly label: string;
  readonly symbol: string;
  readonly unit: string;
  /** The value of a single cell. */
  readonly value: CellValue;
  /** Dates and the like as the sheet shows them; "" if the plain value is clearest. */
  readonly shown: string;
  readonly notEvaluated?: string;
  /** For a range. */
  readonly spread?: Spread;
  readonly members?: readonly Member[];
  /** The formula as typed in Excel. */
  readonly formula?: string;
  /** For several formulas: the cell whose formula is shown. */
  readonly example?: string;
  readonly words?: string;
  /** Why the applied branches of IF and similar functions were chosen. */
  readonly reasons: readonly string[];
  readonly functions: readonly FunctionNote[];
  /** The source named in the table's own row. */
  readonly source?: string;
  readonly notes: readonly string[];
  readonly branches: readonly Branch[];
  /** Its precedents are not shown because the requested trace ends here. */
  readonly cut: boolean;
}

/** From a cell back to what was typed in: every place once; `places[0]` is the requested cell. */
export interface Trace {
  readonly places: readonly TracedPlace[];
  /** The typed cells it depends on, in workbook order, without blank ones. */
  readonly inputs: readonly string[];
}

const longestText = 60;

/** A value within a sentence: numbers to seven digits, text in quotes. */
export function describeValue(value: CellValue): string {
  if (value === null) return "blank";
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "number") return String(Number(value.toPrecision(7))).replace("-", "−");
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return `"${value.length > longestText ? `${value.slice(0, longestText - 1)}…` : value}"`;
}

/** How many cells of a range are of each kind, and the span of their numbers. */
export function spreadOf(members: readonly Member[], cells: number): Spread {
  let [numbers, lowest, highest, filled] = [0, Infinity, -Infinity, 0];
  for (const { value, kind } of members) {
    if (kind !== "blank") filled += 1;
    if (typeof value !== "number") continue;
    numbers += 1;
    lowest = Math.min(lowest, value);
    highest = Math.max(highest, value);
  }
  return { cells, blank: cells - filled, numbers, lowest, highest };
}

/** Input cells in the order of the workbook. */
export function listInputs(cells: readonly Place[], address: (cell: Place) => string): string[] {
  return [...cells].sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column).map(address);
}
