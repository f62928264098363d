import type { Sheet } from "../blocks/sheet";
import { footer } from "./scenario";

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
  method: "Method",
  cautions: "Cautions",
} as const;

/** A finished sheet and the names by which other sheets call its values. */
export interface Page {
  readonly sheet: Sheet;
  readonly names: Readonly<Record<string, string>>;
}

/** Every page starts with the firm and the house, as the cover has them. */
export const letterhead = {
  brand: 'UPPER(Firm)&"   "&LOWER(TradeLine)&IF(Remark="","","   ("&LOWER(Remark)&")")',
  house: 'IF(House="","",House)',
} as const;

export { footer };
