import { onSheet } from "../blocks/address";
import type { Units } from "../blocks/units";
import { assumptionsIn } from "./assumptions";
import { sheets } from "./places";

/** The first row of the assumptions on the sheet Uncertainty. */
export const assumptionsFirst = 7;

/** The cell in which an assumption is typed. */
export function assumptionAt(units: Units, label: string): string {
  const index = assumptionsIn(units).findIndex((one) => one.label === label);
  if (index < 0) throw new Error(`no assumption is called ${label}`);
  return onSheet(sheets.uncertainty, `D${assumptionsFirst + index}`);
}
