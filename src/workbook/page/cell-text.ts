import { format, formatColor, isDateFormat } from "numfmt";
import { daysTo1904 } from "../formula/functions/dates";
import { type CellValue, ErrorValue } from "../model";

/** A value as shown by a cell with this number format. */
export function formatCellText(value: CellValue, pattern: string, date1904: boolean): string {
  if (value === null) return "";
  if (value instanceof ErrorValue) return value.code;
  // The formatter gets some fractions wrong (0.99 becomes 1 98/99), so the number itself is shown.
  const known = isFraction(pattern) ? "General" : pattern;
  return format(known, toDaysSince1900(value, known, date1904), { throws: false, invalid: String(value) }).trim();
}

/** A date or time as its cell shows it, "" for any other value. */
export function formatDateValue(value: CellValue, pattern: string, date1904: boolean): string {
  return typeof value === "number" && isDateFormat(pattern) ? formatCellText(value, pattern, date1904) : "";
}

/** True for a fraction format, such as "# ?/8"; a date has its slashes between letters. */
const isFraction = (pattern: string): boolean =>
  /[?#0]\s*\/\s*[?#0-9]/.test(pattern.replace(/"[^"]*"|[\\_*].|\[[^\]]*\]/g, ""));

/** The colour set by a number format, such as [Red]; RRGGBB. */
export function formatColour(value: CellValue, pattern: string): string | undefined {
  if (typeof value !== "number" || !pattern.includes("[")) return undefined;
  try {
    const colour = formatColor(pattern, value);
    return typeof colour === "string" ? named.get(colour.toLowerCase()) : undefined;
  } catch {
    return undefined;
  }
}

const named: ReadonlyMap<string, string> = new Map(
  Object.entries({
    red: "C00000",
    blue: "0000C0",
    green: "006000",
    magenta: "900090",
    cyan: "006070",
    yellow: "705000",
  }),
);

function toDaysSince1900(value: number | string | boolean, pattern: string, date1904: boolean) {
  return typeof value === "number" && date1904 && isDateFormat(pattern) ? value + daysTo1904 : value;
}
