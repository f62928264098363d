import type { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes } from "../calls/function-entry";
import { isError, toInteger } from "../values/coerce";
import { parseNumber } from "../values/number-text";
import { refuse } from "../values/refusal";
import { errors, type Scalar } from "../values/value";
import { readWrittenDate } from "../values/written-date";
import { dateFromSerial } from "./dates";
import { readPlainNumbers, roundDown } from "./rounding";

interface Day {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** DATEVALUE and TIMEVALUE: a part of a date that is written as text; of anything else #VALUE!. */
const defineWrittenPart = (part: "date" | "time") =>
  takes(["scalar"], ([given]) => {
    if (typeof given !== "string") return errors.value;
    const written = readWrittenDate(given.trim());
    const value = parseNumber(given);
    if (!written || value === undefined) return errors.value;
    return part === "date" ? (written.date ? Math.floor(value) : 0) : (written.time ?? 0) % 1;
  });

const lengthOfMonth = ({ year, month }: Day): number => new Date(Date.UTC(year, month, 0)).getUTCDate();
const isEndOfFebruary = (date: Day): boolean => date.month === 2 && date.day === lengthOfMonth(date);
const isLeapYear = (year: number): boolean => lengthOfMonth({ year, month: 2, day: 1 }) === 29;

/** Days between two dates where every month has thirty. */
const countIn30s = (from: Day, to: Day): number =>
  (to.year - from.year) * 360 + (to.month - from.month) * 30 + (to.day - from.day);

/** The European way: a thirty-first counts as the thirtieth. */
const countEuropean = (from: Day, to: Day): number =>
  countIn30s({ ...from, day: Math.min(30, from.day) }, { ...to, day: Math.min(30, to.day) });

/** The American way of YEARFRAC: the end of February counts as the thirtieth, a thirty-first only behind another end of month. */
function countAmerican(from: Day, to: Day): number {
  const first = isEndOfFebruary(from) ? 30 : Math.min(30, from.day);
  const isEnd = (isEndOfFebruary(from) && isEndOfFebruary(to)) || (to.day === 31 && first === 30);
  return countIn30s({ ...from, day: first }, { ...to, day: isEnd ? 30 : to.day });
}

/** The American way of DAYS360: a thirty-first behind an earlier day becomes the first of the next month. */
function countDays360(from: Day, to: Day, european: boolean): number {
  if (european) return countEuropean(from, to);
  if (isEndOfFebruary(from)) return refuse("DAYS360 from the end of February");
  return countIn30s(
    { ...from, day: Math.min(30, from.day) },
    from.day >= 30 ? { ...to, day: Math.min(30, to.day) } : to,
  );
}

/** The mean length of the years that YEARFRAC divides actual days by. */
function measureYears(from: Day, to: Day): number {
  const withinYear =
    from.year === to.year ||
    (to.year === from.year + 1 && (to.month < from.month || (to.month === from.month && to.day <= from.day)));
  if (!withinYear) {
    const years = Array.from({ length: to.year - from.year + 1 }, (_, place) => from.year + place);
    return years.reduce((days, year) => days + (isLeapYear(year) ? 366 : 365), 0) / years.length;
  }
  if (from.year === to.year) return isLeapYear(from.year) ? 366 : 365;
  const passesLeapDay =
    (isLeapYear(from.year) && from.month <= 2) ||
    (isLeapYear(to.year) && (to.month > 2 || (to.month === 2 && to.day === 29)));
  return passesLeapDay ? 366 : 365;
}

/** Two whole days of dates, the earlier first, with their serial numbers; in 1900 Excel's calendar has a day too many. */
function readDays(given: readonly Exclude<Scalar, ErrorValue>[], caller: Caller) {
  const numbers = readPlainNumbers(given);
  if (isError(numbers)) return numbers;
  const { date1904 } = caller.grid.book;
  const serials = numbers.map(roundDown);
  const dates = serials.map((serial) => dateFromSerial(serial, date1904));
  if (dates.includes(undefined)) return errors.number;
  if (!date1904 && serials.some((serial) => serial < 367))
    return refuse(`${caller.name} of a date before 1901 or of a blank`);
  return { serials, dates: dates as readonly Day[] };
}

/** Dates from texts, and the share of a year between two dates. */
export const calendar: FunctionTable = {
  DATEVALUE: defineWrittenPart("date"),
  TIMEVALUE: defineWrittenPart("time"),
  DAYS360: takes(["number", "number", "logical?"], ([start, end, european = false], caller) => {
    const days = readDays([start, end], caller);
    if (isError(days)) return days;
    const [from, to] = days.dates as readonly [Day, Day];
    return countDays360(from, to, european) + 0;
  }),
  YEARFRAC: takes(["scalar", "scalar", "scalar??"], ([start, end, basis = 0], caller) => {
    const days = readDays([start, end], caller);
    const kinds = readPlainNumbers([basis]);
    if (isError(days)) return days;
    if (isError(kinds)) return kinds;
    const [one, other] = days.serials as [number, number];
    const [from, to] = (one <= other ? days.dates : [...days.dates].reverse()) as readonly [Day, Day];
    const span = Math.abs(other - one);
    switch (toInteger(kinds[0] ?? 0)) {
      case 0:
        return countAmerican(from, to) / 360;
      case 1:
        return span / measureYears(from, to);
      case 2:
        return span / 360;
      case 3:
        return span / 365;
      case 4:
        return countEuropean(from, to) / 360;
      default:
        return errors.number;
    }
  }),
};
