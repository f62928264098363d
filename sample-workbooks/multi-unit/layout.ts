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

/** Neutral: a footer cannot follow a cell. */
export const footer = "Airtightness of a building of several units";

/** Units that the building may have, spare rows included, and how many of them can be tested. */
const unitCount = 16;
export const testedCount = 8;

/** Rows of the units on their own sheet and on the sheet Results. */
export const unitRows = { first: 8, last: 7 + unitCount } as const;
