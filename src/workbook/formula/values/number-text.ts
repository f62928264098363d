import { refuse } from "./refusal";
import { readCurrentWork, spendReading } from "../work-limits";
import { readWrittenDate } from "./written-date";

/**
 * A number as Excel writes it when it joins text (General without a width, 15 significant digits).
 *
 * Refused: numbers so small or so large that Excel's choice between decimals and powers of ten is not documented.
 */
export function formatNumber(value: number): string {
  if (Number.isInteger(value) && Math.abs(value) < 1e15) return String(value === 0 ? 0 : value);
  const size = Math.abs(value);
  const digits = value.toPrecision(15);
  const rounded = Number(digits);
  if (size < 1e-9 && size > 0) return formatPowerOfTen(rounded);
  if (size < 1e-4) refuse("a number below 0.0001 joined to text: its notation is not certain");
  if (size >= 1e15) refuse("a number of 1E+15 or more joined to text: its notation is not certain");
  const text = String(rounded);
  return text.length <= 19
    ? text
    : refuse("a number with more than 17 decimals joined to text: its notation is not certain");
}

function formatPowerOfTen(value: number): string {
  const [mantissa = "", exponent = "0"] = value.toExponential().split("e");
  const power = Number(exponent);
  return `${mantissa}E${power < 0 ? "-" : "+"}${String(Math.abs(power)).padStart(2, "0")}`;
}

const plainNumber = /^[+-]?(\d+(?:\.\d*)?|\.\d+)(e[+-]?\d+)?$/i;

/**
 * The number Excel coerces a text to, or undefined for text that is not a number (#VALUE! in Excel).
 *
 * Plain numbers with a decimal point are read, also per cent, dates from year to day, and times. Text that Excel might read by the
 * locale of the machine (other dates, currency, thousands separators, decimal commas, fractions) is refused by name.
 */
export function parseNumber(text: string): number | undefined {
  spendReading(text.length);
  const trimmed = trimBlanks(text);
  if (plainNumber.test(trimmed)) {
    const value = Number(trimmed);
    return Number.isFinite(value) ? value : undefined;
  }
  const written = parseCommonForm(trimmed);
  // A date with blanks around it is none: TRIGONOMETRIC.xlsx, saved by Excel. A time is one.
  if (written !== undefined) return trimmed !== text && readWrittenDate(trimmed)?.date ? undefined : written;
  if (mayBeReadByLocale(trimmed))
    refuse(
      `the text "${shorten(text)}" is read as a number or not according to the locale`,
      "a text that is read as a number or not according to the locale",
    );
  return undefined;
}

/** Per cent, a date or a time, written as every locale reads it. */
function parseCommonForm(text: string): number | undefined {
  if (/^[+-]?(\d+(\.\d*)?|\.\d+)%$/.test(text)) return Number(text.slice(0, -1)) / 100;
  const written = readWrittenDate(text);
  if (!written) return undefined;
  const { date, time = 0 } = written;
  if (!date) return time;
  const { year, month, day } = date;
  const days = Date.UTC(year, month - 1, day) / 86_400_000 + 25_569;
  if (days < 61 || readCurrentWork().date1904)
    refuse(
      `the date "${shorten(text)}" as a number, before March 1900 or in a workbook that counts from 1904`,
      "a date as a number, before March 1900 or in a workbook that counts from 1904",
    );
  return days + time;
}

/** True for a text of which Excel may make a number here or under the settings of another machine, and of which that is not known. */
export const isDoubtfulNumber = (text: string): boolean => {
  const trimmed = text.trim();
  return !plainNumber.test(trimmed) && parseCommonForm(trimmed) === undefined && mayBeReadByLocale(trimmed);
};

/** A text without blanks at its ends: a regular expression would try again at each blank of a long row of them. */
function trimBlanks(text: string): string {
  let [start, end] = [0, text.length];
  while (text[start] === " ") start += 1;
  while (end > start && text[end - 1] === " ") end -= 1;
  return text.slice(start, end);
}

/** True where Excel may read a text as a number, date or time, here or under the settings of another machine. */
export function mayBeNumber(text: string): boolean {
  const trimmed = text.trim();
  return plainNumber.test(trimmed) || mayBeReadByLocale(trimmed);
}

/**
 * True for digits (of any script) with signs only, and for digits with words that may be a month, a.m. or p.m., or money. Any
 * other word ("Room 5", "3x4") makes a text no number anywhere.
 */
function mayBeReadByLocale(text: string): boolean {
  if (!/\p{Nd}/u.test(text) || text.includes('"')) return false;
  if (/\p{Nd}\s*[ap]m?$/iu.test(text)) return true;
  const words = text.toLowerCase().match(/\p{L}+/gu) ?? [];
  return words.every((word) => collectMonthsAndMoney().has(word));
}

const locales =
  "en de fr es it pt nl sv da nb fi pl cs sk hu ro hr sl et lv lt tr el bg ru uk sr ca eu gl ga cy is mt sq mk ja zh ko he ar hi id vi th";
const money =
  "eur usd gbp chf cad aud nzd sek nok dkk isk pln czk huf ron kr zł kč lei lev лв ft fr rs r rub руб kn tl e de di d u h";

let known: ReadonlySet<string> | undefined;

/** Names of months in many languages, long and short, and words of money; made once, when the first doubtful text is met. */
function collectMonthsAndMoney(): ReadonlySet<string> {
  if (known) return known;
  const words = new Set(money.split(" "));
  for (const locale of locales.split(" ")) {
    for (const style of ["long", "short"] as const) {
      const format = new Intl.DateTimeFormat(`${locale}-u-ca-gregory`, {
        month: style,
        day: "numeric",
        timeZone: "UTC",
      });
      for (let month = 0; month < 12; month += 1) {
        const text = format.format(new Date(Date.UTC(2023, month, 15))).toLowerCase();
        for (const word of text.match(/\p{L}+/gu) ?? []) words.add(word);
      }
    }
  }
  known = words;
  return words;
}

function shorten(text: string): string {
  return text.length > 24 ? text.slice(0, 24) + "…" : text;
}
