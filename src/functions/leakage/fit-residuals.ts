import { fitLeakage, influences, residualOf, techniques } from "../../core/index";
import { choice, rowsOf, wantsHeadings } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { headed, requireCarried } from "../cells/spread";
import { asMagnitudes, pairedReadings } from "../cells/pairs";

const names = ["fitted flow", "residual %", "leverage", "Cook's distance", "n without it", "q50 without it"];

/** Rows and columns of a range. */
function sizeOf(range: unknown): [rows: number, columns: number] {
  const rows = rowsOf(range);
  return [rows.length, rows[0]?.length ?? 0];
}

/**
 * Residual, leverage and Cook's distance of each reading, one row per reading. Six columns: fitted flow, residual in %,
 * leverage, Cook's distance, and n and q50 (test conditions) without the reading. An excluded reading gets only its
 * fitted flow and residual; a blank row stays blank. Leverage is how closely the fitted ln q follows the reading's own.
 * For the last three columns the technique is fitted again to the other readings; Cook's distance is the shift of the
 * line at all readings, in the technique's weights.
 * Equation: residual = (q − C·Δp^n)/(C·Δp^n).
 * Source: ISO 9972:2015, regression; R. D. Cook, Technometrics 19 (1977) 15.
 * @customfunction FITRESIDUALS
 * @param pressures Induced pressures Δp, Pa, one per row, all of one sign. 0 beside a blank flow means blank.
 * @param flows Flows through the envelope, one per row; several columns are several fans, added together; type "off" for a fan that is not running.
 * @param [technique] "ordinary" (default), "weighted" (by q²), "organic correlation" or "weighted with expected exponent" (by 1 Pa and 1 %); LEAKAGEFIT has those that need uncertainties.
 * @param [include] "yes" or "no" for each row. Blank or 0 means yes.
 * @param [headings] "yes" puts a heading row above the table.
 * @returns Six columns.
 * @core leakage/residuals.ts
 * @check authorities/random-functions.test.ts
 */
export function fitResiduals(
  pressures: any[][],
  flows: any[][],
  technique?: string | null,
  include?: any[][],
  headings?: string | null,
): any[][] {
  return inCell(() => {
    const named = choice(technique, techniques, "technique", "ordinary");
    requireCarried(names.length * Math.max(...sizeOf(pressures)), "pressures");
    const { height, used, excluded } = asMagnitudes(pairedReadings(pressures, flows, include));
    const fit = fitLeakage(used, named);
    const rows: (number | string)[][] = Array.from({ length: height }, () => Array<string>(6).fill(""));
    for (const reading of [...used, ...excluded]) {
      const { fittedFlow, relative } = residualOf(fit, reading);
      rows[reading.row - 1]!.splice(0, 2, fittedFlow, 100 * relative);
    }
    influences(fit, used, 50).forEach((influence, index) => {
      const { leverage, cooksDistance = "", exponentWithout = "", flowWithout = "" } = influence;
      rows[used[index]!.row - 1]!.splice(2, 4, leverage, cooksDistance, exponentWithout, flowWithout);
    });
    return headed(names, rows, wantsHeadings(headings));
  });
}
