import { type Caller, type FunctionTable, takes } from "../calls/function-entry";
import { isError, toInteger } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, type Scalar } from "../values/value";
import { roundDown, readPlainNumbers } from "./rounding";

/** 31 December 9999, Excel's last day. */
export const lastSerial = 2_958_465;

const dayLength = 86_400_000;
/** Days between the two possible epochs of a workbook. */
export const daysTo1904 = 1462;

/** Days from 30 December 1899 to a day of the Gregorian calendar; months and days outside their range carry over. */
function countDays(year: number, month: number, day: number): number {
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  return Math.round(date.getTime() / dayLength) + 25_569;
}

/**
 * The serial number of a date, undefined outside Excel's calendar. In the 1900 system 1 January 1900 is 1 and 60 is the
 * non-existent 29 February 1900, inherited by Excel from a spreadsheet program of the eighties.
 */
export function serialFromDate(year: number, month: number, day: number, date1904: boolean): number | undefined {
  const days = countDays(year, month, day);
  if (date1904) {
    const serial = days - daysTo1904;
    return serial >= 0 && serial <= lastSerial - daysTo1904 ? serial : undefined;
  }
  // Before 1 March 1900 the non-existent leap day has not been counted yet; day counts carry across it.
  const monthStart = countDays(year, month, 1);
  const serial = (monthStart <= 60 ? monthStart - 1 : monthStart) + day - 1;
  return serial >= 0 && serial <= lastSerial ? serial : undefined;
}

/** The date of a whole serial number, undefined outside Excel's calendar; 0 is "0 January 1900". */
export function dateFromSerial(
  serial: number,
  date1904: boolean,
): { year: number; month: number; day: number } | undefined {
  const own = date1904 ? serial + daysTo1904 : serial;
  if (!(serial >= 0) || own > lastSerial) return undefined;
  if (own === 0) return { year: 1900, month: 1, day: 0 };
  if (own === 60) return { year: 1900, month: 2, day: 29 };
  const date = new Date((own - 25_569 + (own < 60 ? 1 : 0)) * dayLength);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

/** The day of the week, 0 for Sunday; before March 1900 it follows Excel's calendar, not the real one. */
export function findWeekday(serial: number, date1904: boolean): number | undefined {
  const own = date1904 ? serial + daysTo1904 : serial;
  return serial >= 0 && own <= lastSerial ? (own + 6) % 7 : undefined;
}

/** A part of the date of a serial number; outside 0 to 31 December 9999 it is #NUM!. */
const defineDatePart = (part: (date: { year: number; month: number; day: number }) => number) =>
  takes(["number"], ([serial], caller) => {
    const date = dateFromSerial(roundDown(serial), caller.grid.book.date1904);
    return date ? part(date) : errors.number;
  });

/** Hours, minutes and seconds of a serial number, to the nearest second as Excel shows them. */
const defineTimePart = (part: (seconds: number) => number) =>
  takes(["number"], ([serial]) => {
    if (serial < 0 || serial > lastSerial) return errors.number;
    const seconds = (serial - Math.floor(serial)) * 86_400;
    const whole = Math.round(seconds);
    // At half a second Excel's rounding is not known.
    if (Math.abs(Math.abs(seconds - Math.floor(seconds)) - 0.5) < 1e-6) refuse("a time halfway between two seconds");
    return part(whole % 86_400);
  });

function shiftByMonths(start: number, months: number, caller: Caller, endOfMonth: boolean): Scalar {
  const { date1904 } = caller.grid.book;
  const date = dateFromSerial(roundDown(start), date1904);
  if (!date) return errors.number;
  if (!date1904 && date.day === 0 && !endOfMonth) return refuse("months counted from day 0, where a blank date leads");
  const month = date.month - 1 + toInteger(months) + (endOfMonth ? 1 : 0);
  const year = date.year + Math.floor(month / 12);
  const inYear = ((month % 12) + 12) % 12;
  if (endOfMonth) {
    const end = serialFromDate(year, inYear + 1, 0, date1904);
    // The month that EOMONTH ends in February 1900 has 28 days, although DATE gives it 29.
    if (end === 60 && !date1904) return 59;
    return end === 0 && !date1904 ? refuse("the end of a month before 1900") : (end ?? errors.number);
  }
  const length = new Date(Date.UTC(year, inYear + 1, 0)).getUTCDate();
  if (year === 1900 && inYear === 1 && date.day > 28) refuse("EDATE to the end of February 1900");
  return serialFromDate(year, inYear + 1, Math.min(date.day, length), date1904) ?? errors.number;
}

const defineMonthShift = (endOfMonth: boolean) =>
  takes(["scalar", "scalar"], ([start, months], caller) => {
    const given = readPlainNumbers([start, months]);
    if (isError(given)) return given;
    const [from = 0, count = 0] = given;
    return shiftByMonths(from, count, caller, endOfMonth);
  });

function readClock(caller: Caller): Scalar {
  const { now } = caller;
  if (!now) return refuse(`${caller.name} depends on the clock`);
  if (caller.grid.notes.current) caller.grid.notes.current.onClock = true;
  const day = serialFromDate(now.getFullYear(), now.getMonth() + 1, now.getDate(), caller.grid.book.date1904) ?? 0;
  const seconds = now.getHours() * 3600 + now.getMinutes() * 60 + now.getSeconds() + now.getMilliseconds() / 1000;
  return day + seconds / 86_400;
}

/** A negative count that is no whole number: whether it is cut towards zero or down is not documented. */
function refuseNegativeFractions(counts: readonly number[], caller: Caller): void {
  if (counts.some((count) => count < 0 && !Number.isInteger(count)))
    refuse(`${caller.name} with a negative number that is not whole`);
}

const refuseVolatile = (count: number) =>
  takes(Array<"any?">(count).fill("any?"), (_, caller) =>
    refuse(`${caller.name} gives another value at every calculation`),
  );

/** Dates as serial numbers, with Excel's non-existent leap day of 29 February 1900. */
export const dates: FunctionTable = {
  DATE: takes(["number", "number", "number"], ([year, month, day], caller) => {
    refuseNegativeFractions([year, month, day], caller);
    const y = toInteger(year);
    if (y < 0 || y > 9999) return errors.number;
    const full = y < 1900 ? y + 1900 : y;
    const m = toInteger(month);
    // Months carry first, and a date past the last year does not come back by its days.
    const carried = full + Math.floor((m - 1) / 12);
    if (carried > 9999) return errors.number;
    const serial = serialFromDate(full, m, toInteger(day), caller.grid.book.date1904);
    if (carried >= 1900 || serial === undefined) return serial ?? errors.number;
    return serial > 0 ? refuse("DATE with a month before 1900") : errors.number;
  }),
  TIME: takes(["number", "number", "number"], ([hour, minute, second], caller) => {
    refuseNegativeFractions([hour, minute, second], caller);
    const given = [hour, minute, second].map((value) => toInteger(value));
    if (given.some((value) => value > 32_767)) return errors.number;
    const [h = 0, m = 0, s = 0] = given;
    const seconds = h * 3600 + m * 60 + s;
    return seconds < 0 ? errors.number : (seconds % 86_400) / 86_400;
  }),
  YEAR: defineDatePart(({ year }) => year),
  MONTH: defineDatePart(({ month }) => month),
  DAY: defineDatePart(({ day }) => day),
  HOUR: defineTimePart((seconds) => Math.floor(seconds / 3600)),
  MINUTE: defineTimePart((seconds) => Math.floor(seconds / 60) % 60),
  SECOND: defineTimePart((seconds) => seconds % 60),
  WEEKDAY: takes(["number", "number?"], ([serial, kind = 1], caller) => {
    const day = findWeekday(roundDown(serial), caller.grid.book.date1904);
    if (day === undefined) return errors.number;
    const type = toInteger(kind);
    if (type === 1) return day + 1;
    if (type === 2) return ((day + 6) % 7) + 1;
    if (type === 3) return (day + 6) % 7;
    return type >= 11 && type <= 17 ? ((day + 7 - ((type - 10) % 7)) % 7) + 1 : errors.number;
  }),
  DAYS: takes(["number", "number"], ([end, start], caller) => {
    const days = [roundDown(end), roundDown(start)] as const;
    const isDate = (day: number) => dateFromSerial(day, caller.grid.book.date1904) !== undefined;
    return days.every(isDate) ? days[0] - days[1] : errors.number;
  }),
  EDATE: defineMonthShift(false),
  EOMONTH: defineMonthShift(true),
  NOW: takes([], (_, caller) => readClock(caller)),
  TODAY: takes([], (_, caller) => {
    const now = readClock(caller);
    return typeof now === "number" ? Math.floor(now) : now;
  }),
  RAND: refuseVolatile(0),
  RANDBETWEEN: refuseVolatile(2),
  RANDARRAY: refuseVolatile(5),
  INFO: takes(["any"], () => refuse("INFO depends on the machine")),
};
