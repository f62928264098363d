import { unitNamed } from "../../core/index";
import { type CellValue, ErrorValue, isErrorCode, mayBeNumber, parsePlace, sentence } from "../../workbook/index";
import { BadArgument } from "../shared/parse-options";

/** A cell of a sheet, zero-based. */
export type CellPlace = Readonly<Record<"row" | "column", number>>;

/** What was typed after the equals sign; a day and an amount with its unit depend on the cell. */
export type TypedValue =
  CellValue | { readonly day: number } | { readonly amount: number; readonly unit: string; readonly text: string };

/** One --set as typed: the sheet by name, if any, and the cell, or the words of its label. */
export interface Setting {
  readonly typed: string;
  readonly sheet: string | undefined;
  readonly target: CellPlace | string;
  readonly value: TypedValue;
}

export const example = "--set 'Sheet!B4=512'";

/** Reads "Sheet!B4=512", "'Air leakage'!B4=512", "Rooms!tolerance of each length=0.03" or "internal volume=512"; throws BadArgument. */
export function readSetting(typed: string): Setting {
  const match = /^(?:(?:'((?:[^']|'')+)'|([^!=]+))!)?([^=]+)=([\s\S]*)$/.exec(typed);
  const [, quoted, plain, words = "", text = ""] = match ?? [];
  const target = words.trim();
  if (!match || target === "") throw new BadArgument(sentence`--set "${typed}" is not valid; write it as ${example}`);
  const sheet = quoted?.replaceAll("''", "'") ?? plain;
  const [, letters, digits] = /^\$?([A-Za-z]+)\$?(\d+)$/.exec(target) ?? [];
  if (sheet === undefined || letters === undefined || digits === undefined)
    return { typed, sheet, target, value: readValue(text, typed) };
  const place = parsePlace(letters + digits);
  if (!place) throw new BadArgument(sentence`--set "${typed}": ${target} is not a cell of a sheet`);
  return { typed, sheet, target: place, value: readValue(text, typed) };
}

const number = /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?/i;

/** What typing it in Excel would give, a number with a unit or a day besides; refused if it depends on the computer's language. */
function readValue(text: string, typed: string): TypedValue {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (/^".*"$/s.test(trimmed) && trimmed.length > 1) return trimmed.slice(1, -1).replaceAll('""', '"');
  const [figure] = number.exec(trimmed) ?? [];
  const behind = trimmed.slice(figure?.length ?? 0).trim();
  if (figure !== undefined && (behind === "" || behind === "%")) return readNumber(figure + behind, typed);
  if (figure !== undefined && unitNamed(behind)) return { amount: readNumber(figure, typed), unit: behind, text };
  if (/^(true|false)$/i.test(trimmed)) return trimmed.toLowerCase() === "true";
  if (isErrorCode(trimmed.toUpperCase())) return new ErrorValue(trimmed.toUpperCase() as ErrorValue["code"]);
  if (trimmed.startsWith("=")) throw new BadArgument(sentence`--set "${typed}": only values can be set, not formulas`);
  const day = readDay(trimmed);
  if (day !== undefined) return { day };
  if (/^[-+]?[\d.,\s'’]+%?$/.test(trimmed)) {
    throw new BadArgument(
      sentence`--set "${typed}": write numbers with a decimal point and no separators, text in double quotes`,
    );
  }
  if (/^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}$/.test(trimmed))
    throw new BadArgument(sentence`--set "${typed}": write the day as 2026-11-24 or 24 November 2026`);
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})$/.exec(trimmed) ?? [];
  if (hours !== undefined && Number(hours) < 24 && Number(minutes) < 60)
    return (Number(hours) + Number(minutes) / 60) / 24;
  if (mayBeNumber(trimmed)) {
    throw new BadArgument(
      sentence`--set "${typed}": some regional settings would read this as a number or date; write numbers with a decimal point, days as 2026-11-24, text in double quotes`,
    );
  }
  return text;
}

/** From Excel's day 0 of 1900 to that of 1970. */
const daysTo1970 = 25_569;

const months = "january february march april may june july august september october november december".split(" ");

/** 2026-11-24, 24 November 2026 or 24 Nov 2026, as Excel counts days from 1900; undefined for anything else. */
function readDay(text: string): number | undefined {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  if (day !== undefined) return countDays(Number(year), Number(month), Number(day));
  const [, date, word = "", century] = /^(\d{1,2})\.? ([a-z]{3,9})\.? (\d{4})$/i.exec(text) ?? [];
  const index = word === "" ? -1 : months.findIndex((name) => name.startsWith(word.toLowerCase()));
  return index < 0 ? undefined : countDays(Number(century), index + 1, Number(date));
}

function countDays(year: number, month: number, day: number): number | undefined {
  const moment = new Date(Date.UTC(year, month - 1, day));
  const isReal = moment.getUTCMonth() === month - 1 && moment.getUTCDate() === day && year >= 1904;
  return isReal ? moment.getTime() / 86_400_000 + daysTo1970 : undefined;
}

function readNumber(text: string, typed: string): number {
  const value = text.endsWith("%") ? Number(text.slice(0, -1)) / 100 : Number(text);
  if (!Number.isFinite(value)) throw new BadArgument(sentence`--set "${typed}": the number is too large for a cell`);
  return value;
}
