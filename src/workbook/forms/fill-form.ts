import { evaluateBook } from "../formula/evaluate";
import { compareWithStored } from "../formula/evaluation";
import type { AddInRegistry } from "../formula/calls/add-in";
import type { OpenedWorkbook } from "../file/open";
import type { CellPatch } from "../file/write/cell-edits";
import { collectPatches } from "../file/write/patches";
import { writeBack } from "../file/write/write-back";

/** A copy of the workbook as it would be saved after a person had typed these values: every formula is recalculated. */
export function fillForm(form: OpenedWorkbook, typed: readonly CellPatch[], addIn: AddInRegistry): Uint8Array {
  const { book } = form;
  const set = typed.map((patch) => ({ ...patch, sheet: book.sheets[patch.sheet]?.name ?? "" }));
  const before = evaluateBook(book, { addIn });
  const after = evaluateBook(book, { addIn, set });
  return writeBack(form, collectPatches(book, after, compareWithStored(book, before), { set: typed, before }));
}
