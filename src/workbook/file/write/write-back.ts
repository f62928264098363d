import { formatCellAddress } from "../../book/address";
import { type Cell, buildCellKey, type CellValue, ErrorValue, type Formula, placeOfKey, type Sheet } from "../../model";
import { type OpenedWorkbook, openWorkbook } from "../open";
import { sentence, WorkbookProblem } from "../problem";
import { decodePart, encodePart } from "../xml/text";
import type { ZipEntry } from "../zip/directory";
import type { CellPatch } from "./cell-edits";
import { refreshChartCaches } from "./chart-caches";
import { writeArchive } from "./write-archive";
import { patchSheet } from "./write-sheet";

/**
 * A copy of the workbook with the given cells changed: values only, and the copies of them that charts keep; formulas and styles stay, every other byte of
 * every part is unchanged, and unchanged parts keep even their packed bytes. Changes to what a cell already holds are skipped. The copy is read
 * back before it is returned.
 */
export function writeBack(opened: OpenedWorkbook, changes: readonly CellPatch[]): Uint8Array {
  return writeCopy(opened, changes, { replaced: new Map(), added: new Map(), removed: [] });
}

/** Parts of the package, by name, that differ in a copy. */
export interface PartChanges {
  readonly replaced: ReadonlyMap<string, Uint8Array>;
  readonly added: ReadonlyMap<string, Uint8Array>;
  readonly removed: readonly string[];
  /** Changes to the look of every sheet, made in the text of its part after the cells are changed. */
  readonly changeSheet?: (partName: string, text: string, sheet: number) => string;
}

/** A copy with cells changed, as writeBack, and with whole parts replaced, added or left out. */
export function writeCopy(opened: OpenedWorkbook, changes: readonly CellPatch[], parts: PartChanges): Uint8Array {
  const bySheet = new Map<number, CellPatch[]>();
  for (const change of changes) {
    if (isAlreadyThere(opened, change)) continue;
    const ofSheet = bySheet.get(change.sheet);
    if (ofSheet) ofSheet.push(change);
    else bySheet.set(change.sheet, [change]);
  }
  const replaced = new Map<ZipEntry, Uint8Array>();
  const { changeSheet = (_, text) => text } = parts;
  if (parts.changeSheet)
    for (const [sheet, part] of opened.sheetParts.entries())
      if (part !== undefined && !bySheet.has(sheet)) bySheet.set(sheet, []);
  for (const [sheet, ofSheet] of bySheet) {
    const partName = opened.sheetParts[sheet];
    const entry = partName === undefined ? undefined : opened.archive.findEntry(partName);
    if (partName === undefined || !entry) {
      throw new WorkbookProblem(
        "cannot write",
        sentence`the sheet "${opened.book.sheets[sheet]?.name ?? sheet}" has no cells to write to`,
      );
    }
    const original = opened.archive.readContent(partName);
    const text = changeSheet(partName, patchSheet(partName, decodePart(original), ofSheet), sheet);
    replaced.set(entry, encodePart(text, original));
  }
  const changed = [...bySheet.values()].flat();
  for (const [name, content] of [...refreshChartCaches(opened, changed), ...parts.replaced])
    replaced.set(requireEntry(opened, name), content);
  const removed = new Set(parts.removed.map((name) => requireEntry(opened, name)));
  const copy = writeArchive(opened.archive, replaced, { added: parts.added, removed });
  verifyCopy(opened, copy, changes);
  return copy;
}

function requireEntry({ archive }: OpenedWorkbook, name: string): ZipEntry {
  const entry = archive.findEntry(name);
  if (!entry) throw new WorkbookProblem("damaged", sentence`the part ${name} is missing from the file`);
  return entry;
}

function isAlreadyThere(opened: OpenedWorkbook, change: CellPatch): boolean {
  const cell = opened.book.sheets[change.sheet]?.cells.get(buildCellKey(change.row, change.column));
  const { array, freeze, formula } = change;
  if (freeze || formula) return false;
  const stored = cell?.formula?.array;
  if (array && (!stored || array.bottom !== stored.bottom || array.right !== stored.right)) return false;
  return isSameValue(cell?.value ?? null, change.value);
}

/**
 * Reads a written copy back and compares every cell with what it should be: changed ones as requested, all others as in the original.
 * A copy that fails is a fault of this program, and is not returned.
 */
function verifyCopy(opened: OpenedWorkbook, copy: Uint8Array, changes: readonly CellPatch[]): void {
  const asked = new Map<string, CellPatch>();
  for (const change of changes) asked.set(`${change.sheet} ${buildCellKey(change.row, change.column)}`, change);
  const written = openWorkbook(copy).book;
  for (const [index, before] of opened.book.sheets.entries()) {
    const after = written.sheets[index] as Sheet;
    for (const key of new Set([...before.cells.keys(), ...after.cells.keys()])) {
      const change = asked.get(`${index} ${key}`);
      if (!isAsExpected(before.cells.get(key), after.cells.get(key), change)) {
        const { row, column } = placeOfKey(key);
        throw new WorkbookProblem(
          "cannot write",
          sentence`the copy failed its read-back check at ${before.name}!${formatCellAddress(row, column)} and was not written`,
        );
      }
    }
  }
}

function isAsExpected(before: Cell | undefined, after: Cell | undefined, change: CellPatch | undefined): boolean {
  const value = change ? change.value : (before?.value ?? null);
  if (change?.freeze) return !after?.formula && isSameValue(after?.value ?? "", value ?? "");
  if (change?.formula) return after?.formula?.text === change.formula.text && isSameValue(after.value, value);
  const formula = change?.array && before?.formula ? { ...before.formula, array: change.array } : before?.formula;
  return isSameValue(after?.value ?? null, value) && isSameFormula(after?.formula, formula);
}

/** Whether two cells hold the same value; errors are the same by their code. */
export function isSameValue(a: CellValue, b: CellValue): boolean {
  if (a instanceof ErrorValue && b instanceof ErrorValue) return a.code === b.code;
  return a === b;
}

/** Whether two formulas are the same, their array ranges included. */
function isSameFormula(a: Formula | undefined, b: Formula | undefined): boolean {
  if (!a || !b) return a === b;
  const corners = ["top", "left", "bottom", "right"] as const;
  return (
    a.text === b.text && a.dynamic === b.dynamic && corners.every((corner) => a.array?.[corner] === b.array?.[corner])
  );
}
