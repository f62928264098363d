import { format, isDateFormat, isValidFormat } from "numfmt";
import { takes, type FunctionTable } from "../function-entry";
import { refuse } from "../refusal";
import { errors, type Scalar } from "../value";
import { lastSerial } from "./calendar";

/**
 * What a format must not hold to be trusted: colours and conditions in brackets (elapsed time is fine), fractions, repeated and
 * skipped characters, locale codes, buddhist years and eras, fractions of seconds, and General beside other signs.
 */
const doubtful =
  /\[(?!h+\]|m+\]|s+\]|red\]|blue\]|black\]|white\]|green\]|cyan\]|magenta\]|yellow\])|[?*]|[be]{1}[0-9b]*y|s\.0|g{1,3}/i;

/** The format without quoted and escaped literals. */
const bare = (pattern: string): string => pattern.replace(/"[^"]*"|\\./g, "");

/** A number in a format, as TEXT gives it. Decimal point, comma and English month names are taken for granted. */
function formatted(value: number, pattern: string, date1904: boolean): Scalar {
  if (pattern === "") return "";
  const code = bare(pattern);
  const general = /general/i.test(code);
  if (general && code.trim().toLowerCase() !== "general") refuse("a number format that mixes General with other signs");
  if (!general && doubtful.test(code)) refuse(`the number format ${pattern} in TEXT`);
  if (!isValidFormat(pattern))
    return /[a-z]/i.test(code) ? errors.value : refuse(`the number format ${pattern} in TEXT`);
  if (isDateFormat(pattern)) {
    if (value < 0 || value >= lastSerial + 1) return errors.value;
    if (date1904) refuse("a date as text in a workbook that counts from 1904");
    // Below 61 Excel's calendar has a day that never was, and its weekday names are off by one.
    if (value < 61 && /d|m|y/i.test(code)) refuse("a date before March 1900 as text");
    const second = value * 86_400;
    if (/h|s/i.test(code) && Math.abs(second - Math.floor(second) - 0.5) < 1e-3)
      refuse("a time halfway between two seconds as text");
  }
  // Excel rounds what it shows from 15 digits.
  const shown = Number.isInteger(value) ? value : Number(value.toPrecision(15));
  return format(pattern, shown, { throws: true, locale: "en", dateErrorThrows: true });
}

/** Numbers as text in a format. */
export const textFormats: FunctionTable = {
  TEXT: takes(["scalar", "text"], ([value, pattern], caller) => {
    if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
    if (typeof value === "string") return textAsText(value, pattern);
    return formatted(value ?? 0, pattern, caller.grid.book.date1904);
  }),
};

/** Text stays text, unless it looks like a number or the format has a place for text. */
function textAsText(value: string, pattern: string): Scalar {
  if (/\d/.test(value)) refuse("TEXT of a text with digits");
  return bare(pattern).includes("@") || pattern.split(";").length > 3 ? refuse("TEXT with a format for text") : value;
}
