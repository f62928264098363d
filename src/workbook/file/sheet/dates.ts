const millisecondsOfADay = 86_400_000;

/**
 * The serial number of an ISO 8601 date, time or both, as a cell of type "d" holds it (ECMA-376 part 1, 18.18.11 ST_CellType, 18.17.4).
 * A time alone is a fraction of a day. Undefined when the text is no such date.
 */
export function serialOfIsoDate(text: string, date1904: boolean): number | undefined {
  const clock = /^(\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?$/.exec(text);
  if (clock) return (Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3] ?? 0)) / 86_400;
  if (!/^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2}(\.\d+)?)?Z?)?$/.test(text)) return undefined;
  const time = Date.parse(text.length === 10 || text.endsWith("Z") ? text : `${text}Z`);
  if (!Number.isFinite(time)) return undefined;
  if (date1904) return (time - Date.UTC(1904, 0, 1)) / millisecondsOfADay;
  const serial = (time - Date.UTC(1899, 11, 30)) / millisecondsOfADay;
  // Excel counts a 29 February 1900 that never was, so days before it stand one lower.
  return serial < 61 ? serial - 1 : serial;
}
