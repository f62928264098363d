import { isPercentFormat } from "numfmt";
import { convertUnits, MethodError, unitNamed } from "../../core/index";
import { isErrorCode } from "../file/sheet/values";
import { daysTo1904 } from "../formula/functions/dates";
import { mayBeNumber } from "../formula/values/number-text";
import { type Book, buildCellKey, type CellValue, ErrorValue } from "../model";
import type { Place } from "./area";
import type { Labels } from "./labels";
import { readDay } from "./typed-moment";

/** What a person typed; a day, a share typed with its sign and an amount with its unit depend on the cell. */
export type TypedValue =
  | CellValue
  | { readonly day: number }
  | { readonly share: number }
  | { readonly amount: number; readonly unit: string; readonly text: string };

/** Why a typed text is refused: a key for those who have words of their own, with what the words name. */
const refusals = {
  tooLarge: () => "the number is too large for a cell",
  formula: () => "only values can be set, not formulas",
  separators: () => "write numbers with a decimal point and no separators, text in double quotes",
  ambiguousDay: () => "write the day as 2026-11-24 or 24 November 2026",
  regional: () =>
    "some regional settings would read this as a number or date; write numbers with a decimal point, days as 2026-11-24, text in double quotes",
  noUnit: () => "there is no unit beside the cell; give the number alone",
  otherUnit: (unit: string, typed: string) => `the cell is in ${unit}, not in a unit like ${typed}`,
};

export type TypedRefusal = keyof typeof refusals;

/** Makes the problem to throw from the words that say why, or from their key. */
type Refuse = (why: string, key: TypedRefusal, given: readonly string[]) => Error;

const number = /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?/i;

/** What typing it in Excel would give, a number with a unit or a day besides; refused if it depends on the computer's language. */
export function readTypedValue(text: string, refuse: Refuse): TypedValue {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (/^".*"$/s.test(trimmed) && trimmed.length > 1) return trimmed.slice(1, -1).replaceAll('""', '"');
  const [figure] = number.exec(trimmed) ?? [];
  const behind = trimmed.slice(figure?.length ?? 0).trim();
  if (figure !== undefined && behind === "") return readNumber(figure, refuse);
  if (figure !== undefined && behind === "%") return { share: readNumber(figure, refuse) / 100 };
  if (figure !== undefined && unitNamed(behind)) return { amount: readNumber(figure, refuse), unit: behind, text };
  if (/^(true|false)$/i.test(trimmed)) return trimmed.toLowerCase() === "true";
  if (isErrorCode(trimmed.toUpperCase())) return new ErrorValue(trimmed.toUpperCase() as ErrorValue["code"]);
  if (trimmed.startsWith("=")) throw refuse(refusals.formula(), "formula", []);
  const day = readDay(trimmed);
  if (day !== undefined) return { day };
  if (/^[-+]?[\d.,\s'’]+%?$/.test(trimmed)) throw refuse(refusals.separators(), "separators", []);
  if (/^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}$/.test(trimmed)) throw refuse(refusals.ambiguousDay(), "ambiguousDay", []);
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})$/.exec(trimmed) ?? [];
  if (hours !== undefined && Number(hours) < 24 && Number(minutes) < 60)
    return (Number(hours) + Number(minutes) / 60) / 24;
  if (mayBeNumber(trimmed)) {
    throw refuse(refusals.regional(), "regional", []);
  }
  return text;
}

function readNumber(text: string, refuse: Refuse): number {
  const value = Number(text);
  if (!Number.isFinite(value)) throw refuse(refusals.tooLarge(), "tooLarge", []);
  return value;
}

/**
 * The value as the cell needs it: a day counted as the workbook counts days, an amount in the unit beside the cell. In a cell shown in per cent a number
 * from 1 on is one of per cent, a smaller one the share itself, as Excel's automatic percent entry has it.
 */
export function fitToCell(
  book: Book,
  { sheet, row, column }: Place,
  value: TypedValue,
  labels: Labels,
  refuse: Refuse,
): CellValue {
  const cell = book.sheets[sheet]?.cells.get(buildCellKey(row, column));
  if (typeof value === "number" && Math.abs(value) >= 1 && isPercentFormat(cell?.format ?? "General"))
    return value / 100;
  if (typeof value !== "object" || value === null || value instanceof ErrorValue) return value;
  if ("share" in value) return value.share;
  if ("day" in value) return value.day - (book.date1904 ? daysTo1904 : 0);
  const stored = cell?.value ?? null;
  const { unit } = labels.describeAt(sheet, row, column);
  if (typeof stored === "string") return value.text;
  if (unitNamed(unit) === undefined) {
    if (typeof stored !== "number") return value.text;
    throw refuse(refusals.noUnit(), "noUnit", []);
  }
  try {
    return convertUnits(value.amount, value.unit, unit);
  } catch (problem) {
    throw problem instanceof MethodError
      ? refuse(refusals.otherUnit(unit, value.unit), "otherUnit", [unit, value.unit])
      : problem;
  }
}
