import { inCell } from "../cells/host-error";
import { table } from "../cells/table";
import { resultRows } from "./result-rows";
import { wholeTest } from "./whole-test";

/**
 * One direction of a fan pressurization test, from raw readings to results at 50 Pa and at reference conditions, one
 * row per step. Columns: what it is, symbol, value, lower, upper, unit, source; fetch a value by its symbol ("n50",
 * "q50", "C_L", …) with INDEX and MATCH. The limits cover only the scatter of the readings, as the standards have it:
 * with usual instruments they miss the true value more often than not; UNCERTAINTYBUDGET gives the full interval. With
 * a column of times before the pressures, and the settings "time of baseline before" and "time of baseline after" in
 * the same unit, the zero of each reading is interpolated linearly between the baselines; otherwise it is their mean.
 * With the technique "weighted with expected exponent" the limits take in the exponents of other houses too; for the
 * rows n_data and prior_share see LEAKAGEFIT.
 * Equation: Δp = reading − Δp0; q = C·Δp^n; C_L = C·(ρ/ρ0)^(1−n), by ASTM E779, ASTM E3158 and the US Army Corps also
 * ·(μ/μ0)^(2n−1); q50 = C_L·50^n; n50 = q50/V.
 * Source: the standard named by the setting "standard", ISO 9972:2015 if none is named; VALIDITYCHECKS checks its
 * limits.
 * @customfunction TESTRESULT
 * @param direction "depressurization" or "pressurization".
 * @param pressures Pressure differences as read, Pa, indoors minus outdoors, one per row; or two columns, time and pressure. 0 beside a blank flow means blank.
 * @param flows Flows, m³/h (SI L/s: L/s, IP: cfm); the setting "flow basis" says of which kind. Several columns are several fans, added together; type "off" for a fan that is not running.
 * @param baseline_before Baseline readings before the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value; it needs "flow basis", "indoor temperature" and "outdoor temperature", and "volume" for n50. "?" as the value of a label that takes words lists them; the add-in's page lists all labels.
 * @param [include] "yes" or "no" for each row. Blank or 0 means yes.
 * @returns The table.
 * @core results/test-result.ts readings/baseline.ts
 * @check authorities/random-tests.test.ts authorities/trade-practice.test.ts functions/times.test.ts
 */
export function testResult(
  direction: string,
  pressures: any[][],
  flows: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  settings?: any[][],
  include?: any[][],
): any[][] {
  return inCell(() => {
    const test = wholeTest([direction, pressures, flows, baseline_before, baseline_after, settings, include]);
    return table(resultRows(test), test.settings.headings);
  });
}
