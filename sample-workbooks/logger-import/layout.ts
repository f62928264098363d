import { onSheet } from "../blocks/address";

/** Sheet names, in the order of the tabs. */
export const sheets = {
  overview: "Overview",
  log: "Log",
  stations: "Stations",
  readings: "Readings",
  depressurization: "Depressurization",
  pressurization: "Pressurization",
  uncertainty: "Uncertainty",
  notes: "Notes",
} as const;

export const directions = ["depressurization", "pressurization"] as const;
export type Direction = (typeof directions)[number];

/** Rows of the log, spare ones for a longer export included. */
export const logRows = { first: 6, last: 1505 } as const;
export const logRange = onSheet(sheets.log, `B${logRows.first}:E${logRows.last}`);

/** How stations are found: label and value on the sheet of the log. */
export const settingsRows = { first: 7, last: 15 } as const;
export const settingsRange = onSheet(sheets.log, `G${settingsRows.first}:H${settingsRows.last}`);

/** Rows for stations; a longer list needs more of them. */
export const stationRows = { first: 9, last: 32 } as const;

/** Columns of the table that LOGSTATIONS fills, and of what stands beside it. */
export const stationColumns = {
  number: "B",
  start: "C",
  last: "R",
  rows: "F",
  pressure: "G",
  deviation: "H",
  error: "I",
  freedom: "J",
  drift: "K",
  flow: "L",
  state: "O",
  lookAt: "P",
  firstRow: "Q",
  lastRow: "R",
  role: "S",
  use: "T",
  reason: "U",
} as const;

/** A formula: no log is pasted yet; an error in the log is not blank, and shows wherever stations are used. */
const noLog = `${onSheet(sheets.stations, `${stationColumns.start}${stationRows.first}`)}=""`;

/** A formula that waits for a log. */
export function onceLogged(formula: string, until = '""'): string {
  return `IF(${noLog},${until},${formula})`;
}

/** A cell of a station's row on the sheet Stations. */
export function stationCell(column: keyof typeof stationColumns, row: number): string {
  return onSheet(sheets.stations, `${stationColumns[column]}${row}`);
}
