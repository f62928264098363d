import { baselinePressure, directions, pressureStations as stationsOf } from "../../core/index";
import { numbersIn, oneOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { oneNumber } from "../cells/spread";

/**
 * Pressures to set in a test, one row per station, in equal steps from the highest to the lowest. Two columns, Pa:
 * induced pressure Δp, and what the gauge then shows, Δp plus the baseline. Depressurization is negative, indoors minus
 * outdoors; without a direction the pressures are magnitudes.
 * Equation: Δp_k = Δp_high − k·(Δp_high − Δp_low)/(count − 1); gauge = Δp_k + Δp0.
 * Source: ISO 9972:2015, induced pressure difference; equal steps are common practice.
 * @customfunction PRESSURESTATIONS
 * @param lowest Lowest induced pressure, Pa, as a magnitude. 0 means blank.
 * @param highest Highest induced pressure, Pa, as a magnitude. 0 means blank.
 * @param count Number of stations, 2 or more. 0 means blank.
 * @param [direction] "depressurization" or "pressurization"; needed with a baseline.
 * @param [baseline] Baseline, Pa, signed, or its readings, averaged. 0 is a value: pass blanks as "".
 * @returns Induced and displayed pressure.
 * @core planning/pressure-stations.ts
 * @check authorities/laws/planning/pressures.test.ts
 */
export function pressureStations(
  lowest: any[][],
  highest: any[][],
  count: any[][],
  direction?: string | null,
  baseline?: any[][],
): any[][] {
  return inCell(() => {
    const range = {
      lowest: oneNumber(lowest, "lowest"),
      highest: oneNumber(highest, "highest"),
      count: oneNumber(count, "count"),
    };
    const read = numbersIn(baseline, "baseline");
    const zero = read.length === 0 ? undefined : baselinePressure(read).pressure;
    return stationsOf(range, oneOf(direction, directions, "direction"), zero).map(({ induced, displayed }) => [
      induced,
      displayed,
    ]);
  });
}
