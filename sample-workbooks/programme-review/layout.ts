import { onSheet } from "../blocks/address";
import { houseCount } from "./scenario";

/** Sheet names, in the order of the tabs. */
export const sheets = { overview: "Overview", houses: "Houses", rules: "Rules", notes: "Notes" } as const;

export const houseRows = { head: 6, first: 7, last: 6 + houseCount } as const;

/** Columns of the table of houses, in its order: what a reader looks for first, then what was typed, then the steps between. */
export const houseColumns = {
  ...{ id: "B", tester: "C", day: "D", reported: "E", n50: "F", difference: "G", verdict: "H", probability: "I" },
  ...{ validity: "J", notMet: "K", score: "L", why: "M" },
  ...{ volume: "N", indoor: "O", outdoor: "P", baseline: "Q", certificate: "R" },
  ...{ firstPressureDown: "S", lastPressureDown: "X", firstFlowDown: "Y", lastFlowDown: "AD" },
  ...{ firstPressureUp: "AE", lastPressureUp: "AJ", firstFlowUp: "AK", lastFlowUp: "AP" },
  ...{ cDown: "AQ", nDown: "AR", r2Down: "AS", clDown: "AT", n50Down: "AU" },
  ...{ cUp: "AV", nUp: "AW", r2Up: "AX", clUp: "AY", n50Up: "AZ", apart: "BA", order: "BB" },
} as const;

/** A whole column of the table, for counts on other sheets. */
export function columnOfHouses(column: keyof typeof houseColumns): string {
  const letter = houseColumns[column];
  return onSheet(sheets.houses, `${letter}${houseRows.first}:${letter}${houseRows.last}`);
}
