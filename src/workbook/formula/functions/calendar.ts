/** 31 December 9999, the last day that Excel knows. */
export const lastSerial = 2_958_465;

const dayLength = 86_400_000;
/** Days between the two dates that a workbook may count from. */
export const daysTo1904 = 1462;

/** Days from 30 December 1899 to a day of the Gregorian calendar; months and days outside their range carry over. */
function daysOf(year: number, month: number, day: number): number {
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  return Math.round(date.getTime() / dayLength) + 25_569;
}

/**
 * The serial number of a date, undefined outside Excel's calendar. In the 1900 system 1 January 1900 is 1 and 60 is the
 * 29 February 1900 that never was, which a spreadsheet program of the eighties counted and Excel kept.
 */
export function serialOf(year: number, month: number, day: number, date1904: boolean): number | undefined {
  const days = daysOf(year, month, day);
  if (date1904) {
    const serial = days - daysTo1904;
    return serial >= 0 && serial <= lastSerial - daysTo1904 ? serial : undefined;
  }
  // Before 1 March 1900 the leap day that never was has not been counted yet; day counts carry over across it.
  const monthStart = daysOf(year, month, 1);
  const serial = (monthStart <= 60 ? monthStart - 1 : monthStart) + day - 1;
  return serial >= 0 && serial <= lastSerial ? serial : undefined;
}

/** The date of a whole serial number, undefined outside Excel's calendar; 0 is "0 January 1900". */
export function calendarOf(
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
export function weekdayOf(serial: number, date1904: boolean): number | undefined {
  const own = date1904 ? serial + daysTo1904 : serial;
  return serial >= 0 && own <= lastSerial ? (own + 6) % 7 : undefined;
}
