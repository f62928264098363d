import { isDateFormat } from "numfmt";
import { readWrittenDate } from "../formula/values/written-date";

/** From Excel's day 0 of 1900 to that of 1970. */
const daysTo1970 = 25_569;

const months = "january february march april may june july august september october november december".split(" ");

/** 2026-11-24, 24 November 2026 or 24 Nov 2026, as Excel counts days from 1900; undefined for anything else. */
export function readDay(text: string): number | undefined {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text) ?? [];
  if (day !== undefined) return countDays(Number(year), Number(month), Number(day));
  const [, date, word = "", century] = /^(\d{1,2})\.? ([a-z]{3,9})\.? (\d{4})$/i.exec(text) ?? [];
  const index = word === "" ? -1 : findMonth(word);
  return index < 0 ? undefined : countDays(Number(century), index + 1, Number(date));
}

const findMonth = (word: string): number => months.findIndex((name) => name.startsWith(word.toLowerCase()));

function countDays(year: number, month: number, day: number): number | undefined {
  const moment = new Date(Date.UTC(year, month - 1, day));
  const isReal = moment.getUTCMonth() === month - 1 && moment.getUTCDate() === day && year >= 1904 && year <= 9999;
  return isReal ? moment.getTime() / 86_400_000 + daysTo1970 : undefined;
}

/** Whether a cell with this number format shows a day or a time. */
export const showsMoment = (pattern: string): boolean => isDateFormat(pattern) === true;

/**
 * The moment that a person means who types over one that a cell shows, in days from 1900; undefined for anything else. Days are read as readDay does, or in the
 * order in which the cell shows day, month and year. What the cell does not show, or what is not typed, stays: the day behind a time, the year behind "22 Sep".
 */
export function readMoment(text: string, pattern: string, stored: number): number | undefined {
  // Hours that are counted on beyond a day are a duration.
  if (/\[h+\]/i.test(pattern)) return readWrittenDate(text)?.time;
  const [written, clock = ""] = /(?:^|[\sT])(\d{1,2}:\d{1,2}(?::\d{1,2}(?:\.\d*)?)?(?:\s?[ap]m)?)$/i.exec(text) ?? [];
  const words = text.slice(0, text.length - (written?.length ?? 0)).trim();
  if (words === "" && clock === "") return undefined;
  const day = words === "" ? Math.floor(stored) : (readDay(words) ?? readInOrder(words, pattern, stored));
  const time = clock === "" ? stored - Math.floor(stored) : readWrittenDate(clock)?.time;
  return day === undefined || time === undefined || time >= 1 ? undefined : day + time;
}

type Field = "d" | "m" | "y";

/** Day, month and year in the order of the cell's own format. */
function readInOrder(text: string, pattern: string, stored: number): number | undefined {
  const fields = listFields(pattern);
  // A weekday tells nothing that the date does not.
  const parts = text.split(/[^\p{L}\d]+/u).filter((part) => /^\d+$/.test(part) || findMonth(part) >= 0);
  if (parts.length === 0 || parts.length !== fields.length) return undefined;
  const usual = new Date((Math.floor(stored) - daysTo1970) * 86_400_000);
  const read = { d: usual.getUTCDate(), m: usual.getUTCMonth() + 1, y: usual.getUTCFullYear() };
  for (const [index, field] of fields.entries()) {
    const part = parts[index] ?? "";
    const value = /^\d+$/.test(part) ? Number(part) : field === "m" ? findMonth(part) + 1 : NaN;
    // Two digits are a year of this century up to 29, as in Excel.
    read[field] = field === "y" && part.length <= 2 ? value + (value < 30 ? 2000 : 1900) : value;
  }
  return countDays(read.y, read.m, read.d);
}

/** Which of day, month and year a format shows, in its order: without weekdays, and without minutes, which are written as months are. */
function listFields(pattern: string): Field[] {
  const [first = ""] = pattern.replace(/"[^"]*"|[\\_*].|\[[^\]]*\]/g, " ").split(";");
  const tokens = first.toLowerCase().match(/d+|m+|y+|h+|s+/g) ?? [];
  return tokens.flatMap((token, index): Field[] => {
    const isMinutes =
      token.startsWith("m") && (tokens[index - 1]?.startsWith("h") || tokens[index + 1]?.startsWith("s"));
    const isWeekday = token.startsWith("d") && token.length > 2;
    return isMinutes || isWeekday || /^[hs]/.test(token) ? [] : [token[0] as Field];
  });
}
