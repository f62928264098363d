import { isSameValue } from "./write-back";
import type { Difference, Evaluation } from "../../formula/evaluation";
import type { CellPatch } from "./cell-edits";
import { type Area, type Book, buildCellKey, type Formula } from "../../model";

/**
 * What a copy must change from the file: the cells that were set, computed cells that differ from the stored value, and,
 * if something was set, those it changed however little. The ranges of dynamic arrays follow their results.
 */
export function collectPatches(
  book: Book,
  evaluation: Evaluation,
  differences: readonly Difference[],
  whatIf: { readonly set: readonly CellPatch[]; readonly before: Evaluation } | undefined,
): CellPatch[] {
  const patches = new Map<string, CellPatch>();
  const spills = new Map(evaluation.spills.map(({ address, area }) => [address, area]));
  const differing = new Set(differences.map(placeKey));
  const resized = new Set(
    evaluation.cells
      .filter(({ sheet, row, column, address, outcome }) => {
        const formula = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.formula;
        return outcome.evaluated && formula && findChangedRange(formula, spills.get(address), row, column);
      })
      .map(({ address }) => address),
  );
  for (const cell of evaluation.cells) {
    const { sheet, row, column, outcome } = cell;
    if (!outcome.evaluated) continue;
    const stored = book.sheets[sheet]?.cells.get(buildCellKey(row, column));
    const array = stored?.formula && findChangedRange(stored.formula, spills.get(cell.address), row, column);
    const earlier = whatIf?.before.outcome(sheet, row, column);
    const moved = whatIf !== undefined && !(earlier?.evaluated && isSameValue(earlier.value, outcome.value));
    // Even an empty text left behind by an array would block it when it grows again.
    const left = cell.role === "filled" && outcome.value === null && resized.has(cell.source);
    if (!array && !moved && !left && !differing.has(placeKey(cell))) continue;
    const patch = { sheet, row, column, value: outcome.value };
    patches.set(placeKey(cell), array ? { ...patch, array } : patch);
  }
  for (const patch of whatIf?.set ?? []) patches.set(placeKey(patch), patch);
  return [...patches.values()];
}

function findChangedRange(formula: Formula, spilled: Area | undefined, row: number, column: number): Area | undefined {
  if (!formula.dynamic || !formula.array) return undefined;
  const area = spilled ?? { top: row, left: column, bottom: row, right: column };
  const { array } = formula;
  return area.bottom === array.bottom && area.right === array.right ? undefined : area;
}

function placeKey({ sheet, row, column }: { sheet: number; row: number; column: number }): string {
  return `${sheet} ${buildCellKey(row, column)}`;
}
