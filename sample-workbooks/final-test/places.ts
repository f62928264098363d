import type { Sheet } from "../blocks/sheet";
import { footer, firm, trade } from "./scenario";

/** Sheet names, in the order of the tabs. */
export const sheets = {
  cover: "Cover",
  rooms: "Rooms",
  instruments: "Instruments",
  depressurization: "Depressurization",
  pressurization: "Pressurization",
  results: "Results",
  graph: "Air leakage graph",
  criteria: "Criteria",
  cautions: "Cautions",
  method: "Method",
} as const;

/** A finished sheet and the names by which other sheets call its values. */
export interface Page {
  readonly sheet: Sheet;
  readonly names: Readonly<Record<string, string>>;
}

/** Every page starts with the firm and the house. */
export const letterhead = { firm, trade, house: "House" } as const;

export { footer };
