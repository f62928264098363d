import type { Sheet } from "../blocks/sheet";

/** Sheet names, in the order of the tabs. */
export const sheets = {
  overview: "Overview",
  units: "Units",
  sampling: "Sampling",
  basis: "Instruments",
  runs: "Runs",
  results: "Results",
  criteria: "Criteria",
  cautions: "Cautions",
} as const;

/** A finished sheet and the names by which other sheets call its values. */
export interface Page {
  readonly sheet: Sheet;
  readonly names: Readonly<Record<string, string>>;
}

/** Neutral: a footer cannot follow a cell. */
export const footer = "Airtightness of a building of several units";

/** A day in a narrow cell. */
export const shortDay = "d mmm yyyy";

/** Units that the building may have, spare rows included, and how many of them can be tested. */
const unitCount = 16;
export const testedCount = 8;

/** Rows of the units on their own sheet and on the sheet Results. */
export const unitRows = { first: 8, last: 7 + unitCount } as const;
