import { ensure, missing, type Term } from "../errors";
import { mean } from "../numbers";

/** The zero-flow pressures of a test, Pa, signed, indoors minus outdoors. */
export interface Baseline {
  readonly before: number;
  /** Absent where no baseline was read after the test. */
  readonly after?: number;
  /** What is taken from every reading. */
  readonly pressure: number;
}

/** What the whole-test functions call the two sets; errors name them. */
const baselineNames = ["baseline before", "baseline after"] as const;

/** Mean of one set of baseline readings. Errors: no reading (missing). */
function meanOfSet(readings: readonly number[], term: Term): number {
  if (readings.length === 0) throw missing(term, "notGiven");
  return mean(readings);
}

/**
 * Zero-flow pressure of the test: Δp0 = (Δp01 + Δp02)/2, each the mean of its readings with the flow device covered, signs kept.
 * Without a set of readings after the test it is the mean before.
 * Source: ISO 9972:2015, zero-flow pressure difference (from memory).
 * Example: baselinePressure([-1.2, -1.4, -1], [-1.6, -2]) → { before: -1.2, after: -1.8, pressure: -1.5 }
 */
export function baselinePressure(
  before: readonly number[],
  after?: readonly number[],
  names: readonly [before: Term, after: Term] = baselineNames,
): Baseline {
  const meanBefore = meanOfSet(before, names[0]);
  if (after === undefined) return { before: meanBefore, pressure: meanBefore };
  const meanAfter = meanOfSet(after, names[1]);
  return { before: meanBefore, after: meanAfter, pressure: (meanBefore + meanAfter) / 2 };
}

/** When the baselines were read, the middle of each set, in the unit of the readings' times. */
export interface BaselineTimes {
  readonly before: number;
  readonly after: number;
}

/**
 * Zero-flow pressure at the time of each reading, on the straight line between the baselines before and after: Δp01 + (Δp02 − Δp01)·(t − t1)/(t2 − t1). Without times, or without a
 * baseline after the test, it is the baseline of the test for every reading.
 * @param term What holds the times, for the errors.
 * Errors: baselines not in the order of time; a reading without its time (missing), or with one outside those of the baselines, naming its row.
 * Source: linear interpolation; a standard's own baseline is the mean of both.
 * Example: zeroOfReadings({ before: -1, after: -2, pressure: -1.5 }, [{ row: 1, time: 3 }], { before: 0, after: 12 }) → [-1.25]
 */
export function zeroOfReadings(
  { before, after, pressure }: Baseline,
  readings: readonly { readonly row: number; readonly time?: number | undefined }[],
  times: BaselineTimes | undefined,
  term: Term = "pressures",
): number[] {
  if (times === undefined || after === undefined) return readings.map(() => pressure);
  ensure(times.after > times.before, "time of baseline after", "baselineOrder");
  return readings.map(({ row, time }) => {
    if (time === undefined) throw missing(term, "notGiven", undefined, row);
    const share = (time - times.before) / (times.after - times.before);
    ensure(share >= 0 && share <= 1, term, "timeOutsideBaselines", undefined, row);
    return before + share * (after - before);
  });
}

/**
 * How many readings are exactly 0 while others are not. Next to other values an exact 0 is more often a
 * reading that is missing than one of a gauge that resolves 0.1 Pa. Where every reading is 0 the zeros are taken as read, and the count is 0.
 * Common practice, no source.
 * Example: countExactZeros([-1.2, 0, -1.4, 0]) → 2
 */
export function countExactZeros(readings: readonly number[]): number {
  const zeros = readings.filter((reading) => reading === 0).length;
  return zeros === readings.length ? 0 : zeros;
}
