import {
  buildCellKey,
  type CellChange,
  type CellPatch,
  type CellValue,
  daysTo1904,
  fitToCell,
  readMoment,
  readTypedValue,
  sentence,
  showsMoment,
  WorkbookProblem,
} from "../../workbook/index";
import type { TypedChange } from "./answers";
import { type Desktop, formatPlace, showValue } from "./opened";

/**
 * The values that a person typed over what cells show; throws a WorkbookProblem for a text that may mean two things. A text that is still what the cell shows
 * is no change: a cell shows fewer digits than it holds, and a time without its day.
 */
export function readTyped(desktop: Desktop, typed: readonly TypedChange[]): CellPatch[] {
  return typed.flatMap((change): CellPatch[] => {
    const { sheet, row, column, text } = change;
    const cell = desktop.book.sheets[sheet]?.cells.get(buildCellKey(row, column));
    const stored = cell?.value ?? null;
    if (text.trim() === showValue(desktop.book, change, stored)) return [];
    return [{ sheet, row, column, value: readText(desktop, change, stored, cell?.format ?? "General") }];
  });
}

/** The same changes as the evaluator wants them, with the sheet's name. */
export function toCellChanges({ book }: Desktop, patches: readonly CellPatch[]): CellChange[] {
  return patches.map(({ sheet, row, column, value }) => ({
    sheet: book.sheets[sheet]?.name ?? "",
    row,
    column,
    value,
  }));
}

function readText(desktop: Desktop, change: TypedChange, stored: CellValue, format: string): CellValue {
  const trimmed = change.text.trim();
  const refuse = (why: string): WorkbookProblem =>
    new WorkbookProblem("cannot write", sentence`${formatPlace(desktop, change)}, "${trimmed}": ` + why);
  if (trimmed === "") return null;
  // Where the cell holds a text, a text is meant.
  if (typeof stored === "string") return trimmed;
  const plain = writePlainly(trimmed, refuse);
  if (typeof stored === "number" && showsMoment(format)) {
    const shift = desktop.book.date1904 ? daysTo1904 : 0;
    const moment = readMoment(trimmed, format, stored + shift);
    if (moment !== undefined) return moment - shift;
    if (!Number.isFinite(Number(plain))) throw refuse("write a day as 24 November 2026 or 2026-11-24, a time as 14:05");
  }
  return fitToCell(desktop.book, change, readTypedValue(plain, refuse), desktop.labels, refuse);
}

/** The figure that a text begins with, as a program writes it: typed with a decimal comma, blanks between thousands or a true minus. */
function writePlainly(text: string, refuse: (why: string) => Error): string {
  const plain = text
    .replace(/^[−–]/, "-")
    .replace(/^([-+])\s+/, "$1")
    .replace(/(?<=\d)[ \u00a0\u202f](?=\d{3}(?!\d))/g, "");
  const [, sign = "", whole, decimals = ""] = /^([-+]?)(\d*),(\d+)(?![\d.,])/.exec(plain) ?? [];
  if (whole === undefined) return plain;
  if (/^[1-9]\d{0,2}$/.test(whole) && decimals.length === 3)
    throw refuse(`this may be ${sign}${whole}${decimals} or ${sign}${whole}.${decimals}; write one of these`);
  return `${sign}${whole}.${decimals}${plain.slice(sign.length + whole.length + 1 + decimals.length)}`;
}
