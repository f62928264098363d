import { letterhead } from "../blocks/letterhead";
import type { Sheet } from "../blocks/sheet";
import type { Direction } from "./readings";
import { footer } from "./scenario";

/** Sheet names, in the order of the tabs. */
export const sheets = {
  cover: "Cover",
  rooms: "Rooms",
  instruments: "Instruments",
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

/** A finished sheet and the names by which other sheets call its values. */
export interface Page {
  readonly sheet: Sheet;
  readonly names: Readonly<Record<string, string>>;
}

export { footer, letterhead };
