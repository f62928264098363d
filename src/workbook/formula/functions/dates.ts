import type { Caller } from "../calls/caller";
import { isError, toInteger } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, type Scalar } from "../values/value";
import { plainNumbers } from "./integers";
import { floorOf } from "./rounding";
import { calendarOf, lastSerial, serialOf, weekdayOf } from "./calendar";

/** A part of the date of a serial number; outside 0 to 31 December 9999 it is #NUM!. */
const datePart = (part: (date: { year: number; month: number; day: number }) => number) =>
  takes(["number"], ([serial], caller) => {
    const date = calendarOf(floorOf(serial), caller.grid.book.date1904);
    return date ? part(date) : errors.number;
  });

/** Hours, minutes and seconds of a serial number, to the nearest second as Excel shows them. */
const timePart = (part: (seconds: number) => number) =>
  takes(["number"], ([serial]) => {
    if (serial < 0 || serial > lastSerial) return errors.number;
    const seconds = (serial - Math.floor(serial)) * 86_400;
    const whole = Math.round(seconds);
    // Half a second is where Excel's rounding is not known.
    if (Math.abs(Math.abs(seconds - Math.floor(seconds)) - 0.5) < 1e-6) refuse("a time halfway between two seconds");
    return part(whole % 86_400);
  });

function shiftedMonths(start: number, months: number, caller: Caller, endOfMonth: boolean): Scalar {
  const { date1904 } = caller.grid.book;
  const date = calendarOf(floorOf(start), date1904);
  if (!date) return errors.number;
  if (!date1904 && date.day === 0 && !endOfMonth) return refuse("months counted from day 0, where a blank date leads");
  const month = date.month - 1 + toInteger(months) + (endOfMonth ? 1 : 0);
  const year = date.year + Math.floor(month / 12);
  const inYear = ((month % 12) + 12) % 12;
  if (endOfMonth) {
    const end = serialOf(year, inYear + 1, 0, date1904);
    return end === 0 && !date1904 ? refuse("the end of a month before 1900") : (end ?? errors.number);
  }
  const length = new Date(Date.UTC(year, inYear + 1, 0)).getUTCDate();
  const leapOf1900 = year === 1900 && inYear === 1 ? 29 : length;
  return serialOf(year, inYear + 1, Math.min(date.day, leapOf1900), date1904) ?? errors.number;
}

const shifting = (endOfMonth: boolean) =>
  takes(["scalar", "scalar"], ([start, months], caller) => {
    const given = plainNumbers([start, months]);
    if (isError(given)) return given;
    const [from = 0, count = 0] = given;
    return shiftedMonths(from, count, caller, endOfMonth);
  });

function clock(caller: Caller): Scalar {
  const { now } = caller;
  if (!now) return refuse(`${caller.name} depends on the clock`);
  if (caller.grid.notes.current) caller.grid.notes.current.onClock = true;
  const day = serialOf(now.getFullYear(), now.getMonth() + 1, now.getDate(), caller.grid.book.date1904) ?? 0;
  const seconds = now.getHours() * 3600 + now.getMinutes() * 60 + now.getSeconds() + now.getMilliseconds() / 1000;
  return day + seconds / 86_400;
}

/** A negative count that is no whole number: whether it is cut towards zero or down is not documented. */
function refuseNegativeFractions(counts: readonly number[], caller: Caller): void {
  if (counts.some((count) => count < 0 && !Number.isInteger(count)))
    refuse(`${caller.name} with a negative number that is not whole`);
}

const volatile = (count: number) =>
  takes(Array<"any?">(count).fill("any?"), (_, caller) =>
    refuse(`${caller.name} gives another value at every calculation`),
  );

/** Dates as serial numbers, with Excel's leap day of 29 February 1900, which never was. */
export const dates: FunctionTable = {
  DATE: takes(["number", "number", "number"], ([year, month, day], caller) => {
    refuseNegativeFractions([year, month, day], caller);
    const y = toInteger(year);
    if (y < 0 || y > 9999) return errors.number;
    const full = y < 1900 ? y + 1900 : y;
    const m = toInteger(month);
    // Months carry first, and a date past the last year does not come back by its days.
    if (full + Math.floor((m - 1) / 12) > 9999) return errors.number;
    return serialOf(full, m, toInteger(day), caller.grid.book.date1904) ?? errors.number;
  }),
  TIME: takes(["number", "number", "number"], ([hour, minute, second], caller) => {
    refuseNegativeFractions([hour, minute, second], caller);
    const given = [hour, minute, second].map((value) => toInteger(value));
    if (given.some((value) => value > 32_767)) return errors.number;
    const [h = 0, m = 0, s = 0] = given;
    const seconds = h * 3600 + m * 60 + s;
    return seconds < 0 ? errors.number : (seconds % 86_400) / 86_400;
  }),
  YEAR: datePart(({ year }) => year),
  MONTH: datePart(({ month }) => month),
  DAY: datePart(({ day }) => day),
  HOUR: timePart((seconds) => Math.floor(seconds / 3600)),
  MINUTE: timePart((seconds) => Math.floor(seconds / 60) % 60),
  SECOND: timePart((seconds) => seconds % 60),
  WEEKDAY: takes(["number", "number?"], ([serial, kind = 1], caller) => {
    const day = weekdayOf(floorOf(serial), caller.grid.book.date1904);
    if (day === undefined) return errors.number;
    const type = toInteger(kind);
    if (type === 1) return day + 1;
    if (type === 2) return ((day + 6) % 7) + 1;
    if (type === 3) return (day + 6) % 7;
    return type >= 11 && type <= 17 ? ((day + 7 - ((type - 10) % 7)) % 7) + 1 : errors.number;
  }),
  DAYS: takes(["number", "number"], ([end, start], caller) => {
    const days = [floorOf(end), floorOf(start)] as const;
    const isDate = (day: number) => calendarOf(day, caller.grid.book.date1904) !== undefined;
    return days.every(isDate) ? days[0] - days[1] : errors.number;
  }),
  EDATE: shifting(false),
  EOMONTH: shifting(true),
  NOW: takes([], (_, caller) => clock(caller)),
  TODAY: takes([], (_, caller) => {
    const now = clock(caller);
    return typeof now === "number" ? Math.floor(now) : now;
  }),
  RAND: volatile(0),
  RANDBETWEEN: volatile(2),
  RANDARRAY: volatile(5),
  INFO: takes(["any"], () => refuse("INFO depends on the machine")),
};
