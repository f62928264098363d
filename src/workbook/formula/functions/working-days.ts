import type { ErrorValue } from "../../model";
import { type Caller, type FunctionTable, takes } from "../calls/function-entry";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { spend } from "../work-limits";
import { dateFromSerial, serialFromDate, findWeekday } from "./dates";
import { visitValues } from "./gather";
import { roundDown, readPlainNumbers } from "./rounding";
import { sentence } from "../../file/problem";

/** Whole days of dates from 1901 on; in 1900 Excel's calendar has a non-existent day. */
function readDays(given: readonly Exclude<Scalar, ErrorValue>[], caller: Caller): number[] | ErrorValue {
  const numbers = readPlainNumbers(given);
  if (isError(numbers)) return numbers;
  const days = numbers.map(roundDown);
  const { date1904 } = caller.grid.book;
  if (days.some((day) => dateFromSerial(day, date1904) === undefined)) return errors.number;
  if (!date1904 && days.some((day) => day < 367)) return refuse(`${caller.name} of a date before 1901 or of a blank`);
  return days;
}

/** Days off beside the weekends: numbers only, blanks do not count. */
function collectHolidays(given: Value | undefined, caller: Caller): Set<number> | ErrorValue {
  const holidays = new Set<number>();
  if (given === undefined || given instanceof Omitted) return holidays;
  if (given instanceof Lambda) return errors.value;
  const add = (value: Exclude<Scalar, null | ErrorValue>): ErrorValue | undefined => {
    if (typeof value !== "number") return refuse(`${caller.name} with holidays that are no dates`);
    holidays.add(roundDown(value));
    return undefined;
  };
  if (given instanceof Reference || given instanceof Matrix) return visitValues(given, caller, add) ?? holidays;
  return given === null ? holidays : isError(given) ? given : (add(given) ?? holidays);
}

/** The days of the week that are off, from Sunday on. */
type Weekend = readonly boolean[];
const usualWeekend: Weekend = [true, false, false, false, false, false, true];

/** The weekend of the .INTL functions: a number for one or two days in a row, or a text of seven 0 and 1 from Monday on. */
function readWeekend(given: Exclude<Scalar, ErrorValue> | undefined): Weekend | ErrorValue {
  if (given === undefined) return usualWeekend;
  if (typeof given === "string") {
    if (!/^[01]{7}$/.test(given)) return errors.value;
    if (given === "1111111") return refuse("a weekend of seven days");
    return [...`${given.slice(6)}${given.slice(0, 6)}`].map((letter) => letter === "1");
  }
  const numbers = readPlainNumbers([given]);
  if (isError(numbers)) return numbers;
  const code = toInteger(numbers[0] ?? 0);
  const isOff = (weekday: number): boolean =>
    code > 10 ? weekday === code - 11 : weekday === (code + 5) % 7 || weekday === (code + 6) % 7;
  return (code >= 1 && code <= 7) || (code >= 11 && code <= 17)
    ? Array.from({ length: 7 }, (_, weekday) => isOff(weekday))
    : errors.number;
}

interface Workdays {
  readonly weekend: Weekend;
  readonly holidays: ReadonlySet<number>;
}

const isWorkday = (day: number, { weekend, holidays }: Workdays, date1904: boolean): boolean =>
  weekend[findWeekday(day, date1904) ?? 0] === false && !holidays.has(day);

function readWorkdays(
  weekend: Exclude<Scalar, ErrorValue> | undefined,
  off: Value | undefined,
  caller: Caller,
): Workdays | ErrorValue {
  const days = readWeekend(weekend);
  if (isError(days)) return days;
  const holidays = collectHolidays(off, caller);
  return isError(holidays) ? holidays : { weekend: days, holidays };
}

type Plain = Exclude<Scalar, ErrorValue>;

function countWorkdays(start: Plain, end: Plain, weekend: Plain | undefined, off: Value | undefined, caller: Caller) {
  const days = readDays([start, end], caller);
  const workdays = readWorkdays(weekend, off, caller);
  if (isError(days)) return days;
  if (isError(workdays)) return workdays;
  const [from = 0, to = 0] = days;
  let count = 0;
  spend(5 * Math.abs(to - from));
  for (let day = Math.min(from, to); day <= Math.max(from, to); day += 1)
    if (isWorkday(day, workdays, caller.grid.book.date1904)) count += 1;
  return from <= to ? count : -count + 0;
}

function findWorkday(start: Plain, count: Plain, weekend: Plain | undefined, off: Value | undefined, caller: Caller) {
  const days = readDays([start], caller);
  const counts = readPlainNumbers([count]);
  const workdays = readWorkdays(weekend, off, caller);
  if (isError(days)) return days;
  if (isError(counts)) return counts;
  if (isError(workdays)) return workdays;
  const { date1904 } = caller.grid.book;
  let day = days[0] ?? 0;
  let left = Math.abs(toInteger(counts[0] ?? 0));
  const step = (counts[0] ?? 0) < 0 ? -1 : 1;
  while (left > 0) {
    spend(20);
    day += step;
    if (dateFromSerial(day, date1904) === undefined) return errors.number;
    if (isWorkday(day, workdays, date1904)) left -= 1;
  }
  return day;
}

/** The week of the year that begins on a weekday (0 for Sunday) and has 1 January in its first week. */
function findWeekOfYear(day: number, firstWeekday: number, date1904: boolean): number | ErrorValue {
  const date = dateFromSerial(day, date1904);
  const newYear = date && serialFromDate(date.year, 1, 1, date1904);
  const weekday = newYear === undefined ? undefined : findWeekday(newYear, date1904);
  if (newYear === undefined || weekday === undefined) return errors.number;
  return Math.floor((day - newYear + ((weekday - firstWeekday + 7) % 7)) / 7) + 1;
}

/** The week by ISO 8601: it begins on Monday and belongs to the year of its Thursday. */
function findIsoWeek(day: number, date1904: boolean): number | ErrorValue {
  const weekday = findWeekday(day, date1904);
  if (weekday === undefined) return errors.number;
  const thursday = day + 4 - (weekday === 0 ? 7 : weekday);
  const date = dateFromSerial(thursday, date1904);
  const newYear = date && serialFromDate(date.year, 1, 1, date1904);
  return newYear === undefined ? errors.number : Math.floor((thursday - newYear) / 7) + 1;
}

/** The first weekday of WEEKNUM's types, 0 for Sunday. */
const firstWeekdays: ReadonlyMap<number, number> = new Map([
  [1, 0],
  [2, 1],
  ...[11, 12, 13, 14, 15, 16, 17].map((type): readonly [number, number] => [type, (type - 10) % 7]),
]);

function countWholeMonths(from: number, to: number, date1904: boolean): number {
  const start = dateFromSerial(from, date1904);
  const end = dateFromSerial(to, date1904);
  if (!start || !end) return 0;
  return (end.year - start.year) * 12 + end.month - start.month - (end.day < start.day ? 1 : 0);
}

/** Weeks, working days, and the time between two dates in whole months and years. */
export const workingDays: FunctionTable = {
  WEEKNUM: takes(["scalar", "scalar?"], ([date, kind = 1], caller) => {
    const days = readDays([date], caller);
    const types = readPlainNumbers([kind]);
    if (isError(days)) return days;
    if (isError(types)) return types;
    const type = toInteger(types[0] ?? 1);
    const { date1904 } = caller.grid.book;
    if (type === 21) return findIsoWeek(days[0] ?? 0, date1904);
    const first = firstWeekdays.get(type);
    return first === undefined ? errors.number : findWeekOfYear(days[0] ?? 0, first, date1904);
  }),
  ISOWEEKNUM: takes(["number"], ([date], caller) => {
    const days = readDays([date], caller);
    return isError(days) ? days : findIsoWeek(days[0] ?? 0, caller.grid.book.date1904);
  }),
  NETWORKDAYS: takes(["scalar", "scalar", "values?"], ([start, end, off], caller) =>
    countWorkdays(start, end, undefined, off, caller),
  ),
  "NETWORKDAYS.INTL": takes(["scalar", "scalar", "scalar??", "values?"], ([start, end, weekend, off], caller) =>
    countWorkdays(start, end, weekend, off, caller),
  ),
  WORKDAY: takes(["scalar", "scalar", "values?"], ([start, count, off], caller) =>
    findWorkday(start, count, undefined, off, caller),
  ),
  "WORKDAY.INTL": takes(["scalar", "scalar", "scalar??", "values?"], ([start, count, weekend, off], caller) =>
    findWorkday(start, count, weekend, off, caller),
  ),
  DATEDIF: takes(["number", "number", "text"], ([start, end, unit], caller) => {
    const days = readDays([start, end], caller);
    if (isError(days)) return days;
    const [from = 0, to = 0] = days;
    if (from > to) return errors.number;
    const { date1904 } = caller.grid.book;
    switch (unit.toLowerCase()) {
      case "d":
        return to - from;
      case "m":
        return countWholeMonths(from, to, date1904);
      case "y":
        return Math.floor(countWholeMonths(from, to, date1904) / 12);
      case "ym":
        return countWholeMonths(from, to, date1904) % 12;
      case "md":
      case "yd":
        return refuse(sentence`DATEDIF with "${unit}", of which Microsoft itself warns`);
      default:
        return errors.number;
    }
  }),
};
