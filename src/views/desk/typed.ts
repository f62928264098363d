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
  type TypedRefusal,
} from "../../workbook/index";
import type { TypedChange } from "./answers";
import { type Desktop, formatPlace, showValue } from "./opened";
import { Refusal, type RefusalKey } from "./refusal";

/**
 * The values that a person typed over what cells show; throws a Refusal for a text that may mean two things. A text that is still what the cell shows
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
  const about = sentence`${formatPlace(desktop, change)}, "${trimmed}"`;
  const refuse = (key: RefusalKey, given: readonly string[] = []): Refusal => Refusal.of(key, given, about);
  const refuseTyped = (why: string, key: TypedRefusal, given: readonly string[]): Refusal =>
    Refusal.told(why, key, given, about);
  if (trimmed === "") return null;
  // Where the cell holds a text, a text is meant.
  if (typeof stored === "string") return trimmed;
  const plain = writePlainly(trimmed, refuse);
  if (typeof stored === "number" && showsMoment(format)) {
    const shift = desktop.book.date1904 ? daysTo1904 : 0;
    const moment = readMoment(trimmed, format, stored + shift);
    if (moment !== undefined) return moment - shift;
    if (!Number.isFinite(Number(plain))) throw refuse("writeDay");
  }
  return fitToCell(desktop.book, change, readTypedValue(plain, refuseTyped), desktop.labels, refuseTyped);
}

/** The figure that a text begins with, as a program writes it: typed with a decimal comma, blanks between thousands or a true minus. */
function writePlainly(text: string, refuse: (key: RefusalKey, given: readonly string[]) => Error): string {
  const plain = text
    .replace(/^[−–]/, "-")
    .replace(/^([-+])\s+/, "$1")
    .replace(/(?<=\d)[ \u00a0\u202f](?=\d{3}(?!\d))/g, "");
  const [, sign = "", whole, decimals = ""] = /^([-+]?)(\d*),(\d+)(?![\d.,])/.exec(plain) ?? [];
  if (whole === undefined) return plain;
  if (/^[1-9]\d{0,2}$/.test(whole) && decimals.length === 3)
    throw refuse("ambiguousComma", [`${sign}${whole}${decimals}`, `${sign}${whole}.${decimals}`]);
  return `${sign}${whole}.${decimals}${plain.slice(sign.length + whole.length + 1 + decimals.length)}`;
}
