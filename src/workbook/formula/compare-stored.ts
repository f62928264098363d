import { cellKey, ErrorValue, type Book, type CellValue } from "../model";
import type { EvaluatedCell, Evaluation } from "./evaluation";

/** A cell whose computed value is not the stored one. */
export interface Difference {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly address: string;
  readonly stored: CellValue;
  readonly computed: CellValue;
  readonly reason: string;
}

/**
 * Numbers may differ by this much of the stored one. Excel and this evaluator round differently in sums, fits and distributions
 * (some of Excel's distributions are good to eleven digits or so), which after cancellation can cost three or four digits more;
 * a wrong rule, unit, or cell changes far more than the ninth digit.
 */
const relativeTolerance = 1e-9;

/** A final difference may keep the rounding errors of what was subtracted: a few units in the fifteenth digit of it. */
const cancellationTolerance = 1e-13;

/** Every evaluated cell whose value differs from the one stored in the file; text, booleans and error codes must be the same. */
export function compareWithStored(book: Book, evaluation: Evaluation): Difference[] {
  const differences: Difference[] = [];
  for (const cell of evaluation.cells) {
    // What depends on the clock was another value when the file was saved; there is nothing to compare.
    if (!cell.outcome.evaluated || cell.onClock) continue;
    const stored = storedValue(book, cell);
    const computed = cell.outcome.value;
    if (agree(stored, computed, cell.scale)) continue;
    const { sheet, row, column, address } = cell;
    differences.push({ sheet, row, column, address, stored, computed, reason: reasonOf(cell, stored, computed) });
  }
  return differences;
}

function storedValue(book: Book, { sheet, row, column }: EvaluatedCell): CellValue {
  return book.sheets[sheet]?.cells.get(cellKey(row, column))?.value ?? null;
}

/** True where two values are the same to the tolerance; `scale` is the larger operand of a final + or −. */
function agree(stored: CellValue, computed: CellValue, scale = 0): boolean {
  if (typeof stored === "number" && typeof computed === "number") {
    const allowed = Math.max(relativeTolerance * Math.abs(stored), cancellationTolerance * scale);
    return Math.abs(stored - computed) <= allowed;
  }
  if (stored instanceof ErrorValue || computed instanceof ErrorValue) {
    return stored instanceof ErrorValue && computed instanceof ErrorValue && stored.code === computed.code;
  }
  // A formula that gave "" may be stored with no value at all.
  return stored === computed || ((stored ?? "") === "" && (computed ?? "") === "");
}

function reasonOf(cell: EvaluatedCell, stored: CellValue, computed: CellValue): string {
  if (cell.plainAddIn && stored instanceof ErrorValue && stored.code === "#NAME?") {
    return "typed while the add-in was absent: Excel keeps #NAME? until the formula is entered again";
  }
  if (computed instanceof ErrorValue && computed.reason !== "") return computed.reason;
  if (stored === null) return "no value is stored for this cell";
  return "the stored value is not what the formula gives now";
}
