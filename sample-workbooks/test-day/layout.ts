import { onSheet } from "../blocks/address";

/** Sheet names, in the order of the tabs. */
export const sheets = {
  day: "Day",
  weather: "Weather",
  pressures: "Pressures",
  fan: "Fan",
  preparation: "Preparation",
  pack: "To pack",
  people: "People",
  cautions: "Cautions",
  record: "Site record",
  standards: "Standards",
  notes: "Notes",
} as const;

export const footer = "Preparation of an airtightness test; expectations, no measurement";

/** Rows of the forecast on the sheet Weather, spare ones included. */
export const hours = { first: 19, last: 26 } as const;

/** A column of the forecast. */
export function ofHours(column: string): string {
  return onSheet(sheets.weather, `${column}${hours.first}:${column}${hours.last}`);
}

/** The value of the hour that is chosen on the sheet Day, in a column of the forecast; blank while none is chosen. */
export function atHour(column: string): string {
  return `IF(HourIndex="","",INDEX(${ofHours(column)},HourIndex))`;
}
