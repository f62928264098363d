import { MethodError } from "../errors";
import { mean } from "../statistics/sums";

/** The zero-flow pressures of a test, Pa, signed, indoors minus outdoors. */
export interface Baseline {
  readonly before: number;
  /** Absent where no baseline was read after the test. */
  readonly after?: number;
  /** What is taken from every reading. */
  readonly pressure: number;
}

/** What the whole-test functions call the two sets; errors name them. */
export const baselineNames = ["baseline_before", "baseline_after"] as const;

/** Mean of one set of baseline readings. Errors: no reading (missing). */
function meanOfSet(readings: readonly number[], argument: string): number {
  if (readings.length === 0) throw new MethodError("missing", argument, "no baseline reading yet");
  return mean(readings);
}

/**
 * Zero-flow pressure of the test: Δp0 = (Δp01 + Δp02)/2, each the mean of its readings with the flow device covered, signs kept.
 * Without a set of readings after the test it is the mean before.
 * Source: ISO 9972:2015, zero-flow pressure difference (from memory).
 */
export function baselinePressure(
  before: readonly number[],
  after?: readonly number[],
  names: readonly [before: string, after: string] = baselineNames,
): Baseline {
  const meanBefore = meanOfSet(before, names[0]);
  if (after === undefined) return { before: meanBefore, pressure: meanBefore };
  const meanAfter = meanOfSet(after, names[1]);
  return { before: meanBefore, after: meanAfter, pressure: (meanBefore + meanAfter) / 2 };
}
