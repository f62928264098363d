import { placeOfKey } from "../model";
import { evaluationOf, type EvaluatedCell, type Evaluation, type Outcome } from "./evaluation";
import type { Grid } from "./grid/grid";
import { NotEvaluated } from "./values/refusal";
import type { Slot } from "./grid/slot";
import type { WorkDone } from "./values/work";

/** What became of every computed cell of an evaluated grid. */
export function reportOf(grid: Grid, cycles: readonly (readonly Slot[])[], work: WorkDone): Evaluation {
  const { formulas } = grid;
  return evaluationOf({
    cells: cellsOf(grid),
    work,
    spills: formulas.flatMap((slot) =>
      slot.formula?.dynamic && slot.filled && !slot.failure ? [{ address: grid.address(slot), area: slot.filled }] : [],
    ),
    cycles: cycles.map((circle) => circle.map((slot) => grid.address(slot))),
    addIn: {
      calls: formulas.reduce((sum, { calls }) => sum + calls, 0),
      cells: formulas.filter((slot) => (slot.parsed?.addInCalls ?? 0) > 0).length,
      depth: formulas.reduce((deepest, { depth }) => Math.max(deepest, depth), 0),
    },
  });
}

function cellsOf(grid: Grid): EvaluatedCell[] {
  const cells: EvaluatedCell[] = [];
  for (const [sheet, { slots }] of grid.sheets.entries()) {
    for (const [key, slot] of slots) {
      const { row, column } = placeOfKey(key);
      const address = grid.address(slot);
      const source = slot.owner ?? slot;
      cells.push({
        sheet,
        row,
        column,
        address,
        // A cell of an array's stored range that the array no longer reaches is among the filled ones, and blank.
        role: slot.formula ? "formula" : "filled",
        outcome: outcomeOf(grid, slot, address),
        scale: slot.scale,
        source: slot.owner ? grid.address(slot.owner) : address,
        readsError: source.readsError,
        afterError: source.afterError,
        isErrorRead: slot.isErrorRead,
        onClock: source.onClock,
        cutTable: slot.cutTable,
        plainAddIn: slot.parsed?.plainAddIn === true,
      });
    }
  }
  return cells;
}

function outcomeOf(grid: Grid, { sheet, row, column }: Slot, own: string): Outcome {
  try {
    return { evaluated: true, value: grid.value(sheet, row, column) };
  } catch (problem) {
    if (!(problem instanceof NotEvaluated)) throw problem;
    const { reason, origin } = problem;
    return origin === undefined || origin === own ? { evaluated: false, reason } : { evaluated: false, reason, origin };
  }
}
