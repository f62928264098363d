import type { Direction } from "./scenario";

/** Sheet names, in the order of the tabs. */
export const sheets = {
  cover: "Cover",
  rooms: "Rooms",
  firm: "Firm",
  preparation: "Preparation",
  depressurization: "Depressurization",
  pressurization: "Pressurization",
  validity: "Validity",
  uncertainty: "Uncertainty",
  results: "Results",
  graph: "Air leakage graph",
  report: "Report",
  shadow: "Native formulas",
  criteria: "Criteria",
  method: "Method",
  cautions: "Cautions",
} as const;

export type RunNumber = 1 | 2;

/** The sheet of one run: the first has the direction's own name. */
export function sheetOf(direction: Direction, run: RunNumber): string {
  return run === 1 ? sheets[direction] : `${sheets[direction]} ${run}`;
}

/** Neutral: a footer cannot follow a cell. */
export const footer = "Airtightness test by fan pressurization";

/** Rows of the readings: up to twelve. */
export const readingRows = { first: 24, last: 35 } as const;

/** Cells of the sheet Results that other sheets use. */
export interface ResultPlaces {
  readonly cell: (symbol: string, column: "depressurization" | "pressurization" | "mean") => string;
  readonly deciding: string;
  /** Of the result that decides: expanded uncertainty, limits, and the probability that the true value meets the limit. */
  readonly uncertainty: string;
  readonly lower: string;
  readonly upper: string;
  readonly probability: string;
  readonly verdict: string;
  readonly rule: string;
  readonly directions: string;
  readonly state: string;
  readonly findings: string;
}
