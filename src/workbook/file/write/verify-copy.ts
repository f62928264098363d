import { cellKey, placeOfKey, type Cell, type Sheet } from "../../model";
import { cellAddress } from "../../formula/parse/address";
import type { CellPatch } from "./cell-patch";
import { openWorkbook, type OpenedWorkbook } from "../open";
import { sentence, WorkbookProblem } from "../problem";
import { sameFormula, sameValue } from "./same";

/**
 * Reads a written copy again and holds every cell against what it should be: the changed ones as asked, all others as in the original.
 * A copy that fails is a fault of this program, and is not handed out.
 */
export function verifyCopy(opened: OpenedWorkbook, copy: Uint8Array, changes: readonly CellPatch[]): void {
  const asked = new Map<string, CellPatch>();
  for (const change of changes) asked.set(`${change.sheet} ${cellKey(change.row, change.column)}`, change);
  const written = openWorkbook(copy).book;
  for (const [index, before] of opened.book.sheets.entries()) {
    const after = written.sheets[index] as Sheet;
    for (const key of new Set([...before.cells.keys(), ...after.cells.keys()])) {
      const change = asked.get(`${index} ${key}`);
      if (!isAsExpected(before.cells.get(key), after.cells.get(key), change)) {
        const { row, column } = placeOfKey(key);
        throw new WorkbookProblem(
          "cannot write",
          sentence`the copy did not read back as it should at ${before.name}!${cellAddress(row, column)}, so it is not written`,
        );
      }
    }
  }
}

function isAsExpected(before: Cell | undefined, after: Cell | undefined, change: CellPatch | undefined): boolean {
  const value = change ? change.value : (before?.value ?? null);
  if (change?.freeze) return !after?.formula && sameValue(after?.value ?? "", value ?? "");
  const formula = change?.array && before?.formula ? { ...before.formula, array: change.array } : before?.formula;
  return sameValue(after?.value ?? null, value) && sameFormula(after?.formula, formula);
}
