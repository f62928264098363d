import { isInside } from "../book/area";
import { recallFormulas } from "../book/formulas";
import { readInputs } from "../file/input-rules";
import type { OpenedWorkbook } from "../file/open";
import type { CellPatch } from "../file/write/cell-edits";
import { collectPatches } from "../file/write/patches";
import { writeBack } from "../file/write/write-back";
import type { AddInRegistry } from "../formula/calls/add-in";
import { evaluateBook } from "../formula/evaluate";
import { compareWithStored } from "../formula/evaluation";

/** Names the inputs that belong to the form and not to a job: limits of programmes, check lists, a firm's usual choices. */
export const keptName = "Kept";

/**
 * What empties a filled form: every cell that a person types into becomes blank, except those named Kept. A person types into the unlocked cells of a
 * protected sheet; on a sheet without protection nothing tells inputs from headings, so it stays as it is.
 */
export function listJobCells(form: OpenedWorkbook): CellPatch[] {
  const { book } = form;
  const kept = recallFormulas(book).listNamedAreas(keptName);
  const inputs = readInputs(form);
  return book.sheets.flatMap((sheet, index) => {
    if (!inputs.isProtected(index)) return [];
    return [...sheet.cells.values()]
      .filter(({ value, formula, row, column }) => {
        const isTyped = value !== null && !formula && inputs.isInput(index, row, column);
        return isTyped && !kept.some((area) => area.sheet === index && isInside(area, row, column));
      })
      .map(({ row, column }) => ({ sheet: index, row, column, value: null }));
  });
}

/** A copy of the workbook as it would be saved after a person had typed these values: every formula is recalculated. */
export function fillForm(form: OpenedWorkbook, typed: readonly CellPatch[], addIn: AddInRegistry): Uint8Array {
  const { book } = form;
  const set = typed.map((patch) => ({ ...patch, sheet: book.sheets[patch.sheet]?.name ?? "" }));
  const before = evaluateBook(book, { addIn });
  const after = evaluateBook(book, { addIn, set });
  return writeBack(form, collectPatches(book, after, compareWithStored(book, before), { set: typed, before }));
}
