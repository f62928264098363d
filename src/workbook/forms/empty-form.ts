import { isInside } from "../book/area";
import { readInputRules } from "../file/input-rules";
import type { OpenedWorkbook } from "../file/open";
import type { CellPatch } from "../file/write/cell-edits";
import { listNamedAreas } from "../book/named-areas";

/** Names the inputs that belong to the form and not to a job: limits of programmes, check lists, a firm's usual choices. */
export const keptName = "Kept";

/**
 * What empties a filled form: every cell that a person types into becomes blank, except those named Kept. A person types into the unlocked cells of a
 * protected sheet; on a sheet without protection nothing tells inputs from headings, so it stays as it is.
 */
export function listJobCells(form: OpenedWorkbook): CellPatch[] {
  const { book } = form;
  const kept = listNamedAreas(book, keptName);
  return book.sheets.flatMap((sheet, index) => {
    const rules = readInputRules(form, index);
    if (!rules.isProtected) return [];
    return [...sheet.cells.values()]
      .filter(({ value, formula, row, column }) => {
        const isTyped = value !== null && !formula && !rules.isLocked(row, column);
        return isTyped && !kept.some((area) => area.sheet === index && isInside(area, row, column));
      })
      .map(({ row, column }) => ({ sheet: index, row, column, value: null }));
  });
}
