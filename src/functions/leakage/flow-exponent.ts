import { inCell } from "../cells/host-error";
import { fitOf } from "./fit";

/**
 * Flow exponent n of the fitted curve q = C·Δp^n. Near 0.5 the leaks are large sharp-edged openings, near 1.0 long fine
 * cracks.
 * Equation: ln q = ln C + n·ln Δp.
 * Source: ISO 9972:2015, regression; ASTM E779-19.
 * @customfunction FLOWEXPONENT
 * @param pressures Induced pressures Δp, Pa, one per row, all of one sign. 0 beside a blank flow means blank.
 * @param flows Flows through the envelope, one per row; several columns are several fans, added together; type "off" for a fan that is not running.
 * @param [technique] "ordinary" (default), "weighted" (by q²), "organic correlation" or "weighted with expected exponent" (by 1 Pa and 1 %); LEAKAGEFIT has those that need uncertainties.
 * @param [include] "yes" or "no" for each row. Blank or 0 means yes.
 * @returns n.
 * @core leakage/fit.ts
 * @check authorities/dm4bem.test.ts authorities/random-functions.test.ts
 */
export function flowExponent(pressures: any[][], flows: any[][], technique?: string | null, include?: any[][]): number {
  return inCell(() => fitOf(pressures, flows, technique, include).exponent);
}
