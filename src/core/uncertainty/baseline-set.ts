import { mean } from "../statistics/sums";

/** How well the mean of one set of baseline readings is known. */
export interface BaselineSet {
  /** Pa, standard. */
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
}

/**
 * Standard error of the mean of a set of baseline readings, s/√m with m − 1 degrees of freedom, taken as independent; where the readings vary less than the gauge resolves,
 * resolution/√12. Of a single value nothing can be told: it gets the uncertainty assumed for one, with 8 degrees of freedom (known to 25 %).
 * Source: JCGM 100:2008, 4.2.3, F.2.2.1 and G.4.2.
 */
export function baselineSet(readings: readonly number[], resolution: number, ofOne: number): BaselineSet {
  const count = readings.length;
  if (count < 2) return { uncertainty: ofOne, degreesOfFreedom: 8 };
  const middle = mean(readings);
  const squares = readings.reduce((sum, value) => sum + (value - middle) ** 2, 0);
  const standardError = Math.sqrt(squares / (count - 1) / count);
  const ofGauge = resolution / Math.sqrt(12);
  return standardError < ofGauge
    ? { uncertainty: ofGauge, degreesOfFreedom: Infinity }
    : { uncertainty: standardError, degreesOfFreedom: count - 1 };
}
