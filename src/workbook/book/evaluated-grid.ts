import type { Evaluation } from "../formula/evaluation";
import { Grid } from "../formula/grid/grid";
import { largestFill } from "../formula/grid/sheet-grid";
import type { Slot } from "../formula/grid/slot";
import { NotEvaluated } from "../formula/values/refusal";
import { Matrix, type Scalar } from "../formula/values/value";
import { Work } from "../formula/work-limits";
import { type Area, type Book, buildCellKey } from "../model";
import { columnsOf, rowsOf, sizeOf } from "./area";

/** The book's cells with every result in place, so that any part of a formula can be evaluated separately, long after the whole. */
export function createEvaluatedGrid(book: Book, evaluation: Evaluation): Grid {
  const spills = new Map(evaluation.spills.map(({ address, area }) => [address, area]));
  // What did not fit in the calculation does not fit here.
  const grid = new Work(evaluation.work.limits).measureWork(() => new Grid(book, new Map(), spills));
  for (const slot of grid.formulas) {
    slot.progress = "done";
    const outcome = evaluation.outcome(slot.sheet, slot.row, slot.column);
    if (outcome?.evaluated) {
      slot.value = outcome.value;
      const area = slot.formula?.dynamic ? spills.get(grid.formatAddress(slot)) : slot.formula?.array;
      if (area && sizeOf(area) <= largestFill) fill(slot, area, evaluation);
    } else slot.failure = new NotEvaluated(outcome?.reason ?? "unknown", outcome?.origin, outcome?.cause);
  }
  return grid;
}

function fill(slot: Slot, area: Area, evaluation: Evaluation): void {
  const values: Scalar[] = [];
  for (let row = area.top; row <= area.bottom; row += 1) {
    for (let column = area.left; column <= area.right; column += 1) {
      const outcome = evaluation.outcome(slot.sheet, row, column);
      values.push(outcome?.evaluated ? outcome.value : null);
    }
  }
  slot.filled = area;
  slot.results = new Matrix(rowsOf(area), columnsOf(area), values);
}

/** What a cell holds or gives, as seen by the trace. */
export interface CellState {
  readonly kind: "formula" | "filled" | "input" | "blank";
  /** For a filled cell, the formula cell that fills it. */
  readonly owner?: Slot;
  readonly value: Scalar;
  readonly notEvaluated?: string;
}

/** The contents of a cell. */
export function findCellState(
  grid: Grid,
  evaluation: Evaluation,
  sheet: number,
  row: number,
  column: number,
): CellState {
  const slot = grid.findSlot(sheet, row, column);
  if (!slot || slot.isEmptied) {
    const value = grid.sheets[sheet]?.constants.get(buildCellKey(row, column)) ?? null;
    return { kind: value === null ? "blank" : "input", value };
  }
  const outcome = evaluation.outcome(sheet, row, column);
  const kind = slot.owner ? "filled" : "formula";
  const owner = slot.owner ? { owner: slot.owner } : {};
  if (outcome?.evaluated) return { kind, ...owner, value: outcome.value };
  return { kind, ...owner, value: null, notEvaluated: outcome?.reason ?? "unknown" };
}
