import { format, isDateFormat, isValidFormat } from "numfmt";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { formatNumber, parseNumber } from "../values/number-text";
import { errors, type Scalar } from "../values/value";
import { daysTo1904, lastSerial } from "./dates";
import { sentence } from "../../file/problem";

/** Locale codes of languages whose names of months and days are the English ones. */
const english = /\[\$-(?:0?409|0?809|en-us|en-gb)\]/gi;
const bracketed = /\[(?:h+|m+|s+|red|blue|black|white|green|cyan|magenta|yellow)\]/gi;

/**
 * Whether a format, without its literals, is more than what is certain: colours and elapsed time in brackets, digits, and dates.
 * Not so conditions and locale codes, fractions, repeated characters, years of other calendars (b, e) and eras (g), fractions of
 * seconds, letters that mean nothing, a part that mixes digits, a date or the place of a text, and more than one such place.
 */
function isDoubtful(code: string): boolean {
  const plain = code.replace(bracketed, (text) => (/^\[[hms]/i.test(text) ? text.slice(1, -1) : ""));
  if (isOddForm(code) || isOddNumber(plain)) return true;
  // Digits other than 0 may or may not be literal, depending on position.
  if (/[[\]?*1-9]|s\.0/i.test(plain) || plain.split("@").length > 2) return true;
  return plain.split(";").some((part) => {
    const letters = part.replace(/am\/pm|a\/p/gi, "h").replace(/e[+-]/gi, "0");
    const hasDate = /[ymdhs]/i.test(letters);
    const hasDigits = /[0#]/.test(letters);
    const isFraction = hasDigits && letters.includes("/");
    return (
      /(?![ymdhs])\p{L}/iu.test(letters) ||
      isFraction ||
      [hasDate, hasDigits, part.includes("@")].filter(Boolean).length > 1
    );
  });
}

/** Nothing but semicolons, a small a/p, and hours or seconds again behind elapsed ones, which Excel shows in ways of its own. */
function isOddForm(code: string): boolean {
  if (/a\/p/.test(code) || /^;+$/.test(code)) return true;
  const elapsed = /\[(h|m|s)+\]/i.exec(code)?.[1];
  return elapsed !== undefined && new RegExp(elapsed, "i").test(code.replace(/\[[^\]]*\]/g, ""));
}

/** More than one per cent sign, commas other than between and behind digits, and digits split by signs. */
function isOddNumber(plain: string): boolean {
  return plain.split(";").some((part) => {
    const isGrouped = /^[^0#,]*[0#](?:,?[0#])*(?:\.[0#]*)?,*(?![0#.,])[^,]*$/.test(part);
    if (!/[0#]/.test(part)) return part.includes("%") || /^,+$/.test(part);
    return part.split("%").length > 2 || (part.includes(",") && !isGrouped) || /[0#.,]%[0#.,]/.test(part);
  });
}

/** The format without quoted and escaped literals and without blanks as wide as a character. */
const stripLiterals = (pattern: string): string => pattern.replace(/"[^"]*"|[\\_]./g, "");

/** True where a format shows hours, minutes or seconds alone: its m comes after hours or before seconds. */
function isTimeOnly(code: string): boolean {
  if (/[dy]/i.test(code)) return false;
  const parts = code.toLowerCase().match(/h+|m+|s+/g) ?? [];
  return parts.every((part, place) => {
    if (!part.startsWith("m")) return true;
    const isMinutes = parts[place - 1]?.startsWith("h") === true || parts[place + 1]?.startsWith("s") === true;
    return isMinutes && part.length <= 2;
  });
}

/** The days to count on from 1900 for a date as text, 0 for a time alone; refuses what is not certain of either. */
function countDaysToShow(value: number, code: string, date1904: boolean): number {
  const time = code.replace(/am\/pm|a\/p/gi, "");
  refuseDoubtfulTime(value, time);
  if (isTimeOnly(time)) return 0;
  if (date1904 && /\[[hms]/i.test(code)) refuse("a date with elapsed time as text in a workbook that counts from 1904");
  const days = date1904 ? daysTo1904 : 0;
  // Below 61 Excel's calendar has a non-existent day, and its weekday names are off by one.
  if (value + days < 61) refuse("a date before March 1900 as text");
  return days;
}

function refuseDoubtfulTime(value: number, time: string): void {
  const second = value * 86_400;
  if (Math.round(second) % 86_400 === 0 && second < Math.round(second) - 1e-3)
    refuse("a time less than a second before midnight as text");
  if (!/[hms]/i.test(time)) return;
  if (Math.abs(second - Math.floor(second) - 0.5) < 1e-3) refuse("a time halfway between two seconds as text");
  // To the nearest second it is a full minute: whether a format without seconds shows the next minute is not certain.
  if (!/s/i.test(time) && Math.round(second) % 60 === 0 && second < Math.round(second) - 1e-3)
    refuse("a time less than a second before a full minute as text");
}

/** The most characters of a number format. */
const longestFormat = 255;

function refuseFormat(pattern: string): never {
  return refuse(sentence`the number format ${pattern} in TEXT`, "a number format in TEXT that is not certain here");
}

/** A number in a format, as TEXT gives it. Decimal point, comma and English month names are taken for granted. */
function applyFormat(value: number, given: string, date1904: boolean): Scalar {
  if (given.length > longestFormat) refuse("a number format longer than Excel takes");
  const pattern = given.replace(english, "");
  if (pattern === "") return "";
  const code = stripLiterals(pattern);
  const general = /general/i.test(code);
  if (general && code.trim().toLowerCase() !== "general") refuse("a number format that mixes General with other signs");
  if (!general && isDoubtful(code)) refuseFormat(pattern);
  if (!isValidFormat(pattern)) refuseFormat(pattern);
  if (code.includes("@")) {
    // A number in the place of a text is written as when it is joined to one.
    if (code !== pattern || code !== "@") refuseFormat(pattern);
    return formatNumber(value);
  }
  let days = 0;
  if (isDateFormat(pattern)) {
    const isElapsed = /\[[hms]/i.test(code);
    if (isElapsed && (value < 0 || value >= lastSerial + 1))
      refuse("elapsed time before 0 or beyond the calendar as text");
    if (value < 0 && date1904) refuse("a negative time as text in a workbook that counts from 1904");
    if (value < 0 || value >= lastSerial + 1) return errors.value;
    days = countDaysToShow(value, code, date1904);
    if (value + days >= lastSerial + 1) return errors.value;
  }
  // Excel rounds what it shows from 15 digits.
  const shown = Number.isInteger(value) ? value : Number(value.toPrecision(15));
  return format(pattern, shown + days, { throws: true, locale: "en", dateErrorThrows: true });
}

/** Numbers as text in a format. */
export const textFormats: FunctionTable = {
  TEXT: takes(["scalar", "text"], ([value, pattern], caller) => {
    if (typeof value === "boolean") return formatText(value ? "TRUE" : "FALSE", pattern);
    const number = typeof value === "string" ? parseNumber(value) : (value ?? 0);
    if (number === undefined) return formatText(value as string, pattern);
    return applyFormat(number, pattern, caller.grid.book.date1904);
  }),
};

/** Text stays text, unless the format has a part for texts: the fourth, or a last one with the place of a text. */
function formatText(value: string, pattern: string): Scalar {
  const parts = stripLiterals(pattern).split(";");
  const forText = parts.length > 3 || parts.at(-1)?.includes("@") ? parts.at(-1)?.trim() : undefined;
  if (forText === undefined)
    return parts.some((part) => part.includes("@")) ? refuse("TEXT with a format for text") : value;
  if (parts.length > 4 || !(forText === "@" || forText === "")) return refuse("TEXT with a format for text");
  return format(pattern, value, { throws: true, locale: "en" });
}
