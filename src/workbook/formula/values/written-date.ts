/**
 * Dates and times in texts as far as every locale reads them alike: year, month and day in this order, hours and minutes
 * with colons, a.m. and p.m. What needs a month's name or the order of day and month is not read here.
 */
export interface WrittenDate {
  /** Undefined for a time alone. */
  readonly date: { readonly year: number; readonly month: number; readonly day: number } | undefined;
  /** Fraction of a day; 1 and more for 24 hours and more. */
  readonly time: number | undefined;
}

const clock = /(\d{1,4}):(\d{1,2})(?::(\d{1,2}(?:\.\d*)?))?(?:\s?([ap])m)?/.source;
const dateAndTime = new RegExp(`^(\\d{4})[-/](\\d{1,2})[-/](\\d{1,2})(?:\\s+${clock})?$`, "i");
const timeAlone = new RegExp(`^${clock}$`, "i");

/** The date, the time or both in a text without blanks around it; undefined where it is no such text. */
export function readWrittenDate(text: string): WrittenDate | undefined {
  const alone = timeAlone.exec(text);
  if (alone) {
    const time = readTime(alone.slice(1));
    return time === undefined ? undefined : { date: undefined, time };
  }
  const [, year, month, day, ...rest] = dateAndTime.exec(text) ?? [];
  if (year === undefined) return undefined;
  const date = { year: Number(year), month: Number(month), day: Number(day) };
  const length = new Date(Date.UTC(date.year, date.month, 0)).getUTCDate();
  if (date.month < 1 || date.month > 12 || date.day < 1 || date.day > length) return undefined;
  if (rest[0] === undefined) return { date, time: undefined };
  const time = readTime(rest);
  return time === undefined ? undefined : { date, time };
}

function readTime([hours, minutes, seconds, half]: readonly (string | undefined)[]): number | undefined {
  const [h, m, s] = [Number(hours), Number(minutes), Number(seconds ?? 0)];
  if (m > 59 || s >= 60) return undefined;
  if (half === undefined) return (h * 3600 + m * 60 + s) / 86_400;
  if (h < 1 || h > 12) return undefined;
  return (((h % 12) + (half.toLowerCase() === "p" ? 12 : 0)) * 3600 + m * 60 + s) / 86_400;
}
