import { baselinePressure as baselineOf } from "../../core/index";
import { isOmitted, numbersIn } from "../cells/cells";
import { inCell } from "../cells/host-error";

/** The readings before a test and, unless the argument was left out, after it. */
export function baselineReadings(
  before: unknown,
  after: unknown,
  names: readonly [string, string] = ["baseline_before", "baseline_after"],
): [before: number[], after?: number[]] {
  const first = numbersIn(before, names[0]);
  return isOmitted(after) ? [first] : [first, numbersIn(after, names[1])];
}

/**
 * Zero-flow pressure of the test Δp0, Pa, signed: the mean of the readings before and after, each set averaged first.
 * Read with the flow device covered.
 * Equation: Δp0 = (Δp01 + Δp02)/2.
 * Source: ISO 9972:2015, zero-flow pressure difference.
 * @customfunction BASELINEPRESSURE
 * @param before Readings before the test, Pa, signed, indoors minus outdoors. 0 is a value: pass blanks as "".
 * @param [after] Readings after the test, Pa. 0 is a value: pass blanks as "".
 * @returns The baseline, Pa.
 * @core readings/baseline.ts
 * @check authorities/random-steps.test.ts
 */
export function baselinePressure(before: any[][], after?: any[][]): number {
  const names = ["before", "after"] as const;
  return inCell(() => {
    const [first, second] = baselineReadings(before, after, names);
    return baselineOf(first, second, names).pressure;
  });
}
