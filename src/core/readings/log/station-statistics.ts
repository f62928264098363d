import {
  autocorrelation,
  batches,
  effectiveCount as independentRows,
  rowsForBatches,
  standardErrorByBatches,
  standardErrorOfMean,
} from "../../statistics/autocorrelation";
import type { Clock, Stretch } from "./log";

/** What the rows of a station say about its mean, correlation between neighbours included. */
export interface StationStatistics {
  readonly count: number;
  readonly mean: number;
  /** Standard deviation of the rows. */
  readonly deviation: number;
  /** Standard error of the mean, and its degrees of freedom. */
  readonly standardError: number;
  readonly degreesOfFreedom: number;
  /** Slope × duration, in the unit of the values. */
  readonly drift: number;
  /** Correlation of neighbouring rows, and how many independent rows the station is worth. */
  readonly correlation: number;
  readonly effectiveCount: number;
}

/**
 * Mean, deviation and standard error of the rows of a station. Gusts last longer than a row, so neighbours are alike and n rows say less than n independent
 * ones: r1 = Σd_i·d_{i+1}/Σd², corrected for the short series, gives the effective count m(1 − φ)/(1 + φ); from 30 rows on six batches are tried too,
 * and the larger standard error counts.
 * @param values A column of the log; its numbers between `first` and `last` are used.
 * @param clock Times of the rows.
 * Source: JCGM 100:2008 4.2 for the mean; first-order autoregression as in G. E. P. Box, G. M. Jenkins, G. C. Reinsel, "Time Series Analysis"; batch means as
 * in A. M. Law, "Simulation Modeling and Analysis" (both from memory). The coverage was simulated.
 */
export function stationStatistics(values: Float64Array, clock: Clock, stretch: Stretch): StationStatistics {
  const { first, last } = stretch;
  const count = last - first + 1;
  const value0 = values[first]!;
  let sum = 0;
  for (let index = first; index <= last; index++) sum += values[index]! - value0;
  const mean = value0 + sum / count;
  // Times from the middle of the station: their mean is near 0, so one pass over them loses no digits.
  const middle = (clock.at(first) + clock.at(last)) / 2;
  let times = 0;
  let timeSquares = 0;
  let squares = 0;
  let products = 0;
  let slopeSum = 0;
  let previous = 0;
  for (let index = first; index <= last; index++) {
    const d = values[index]! - mean;
    const t = clock.at(index) - middle;
    times += t;
    timeSquares += t * t;
    squares += d * d;
    products += d * previous;
    slopeSum += d * t;
    previous = d;
  }
  const meanTime = times / count;
  const drift = (slopeSum / (timeSquares - times * meanTime)) * clock.along(stretch);
  const deviation = Math.sqrt(squares / (count - 1));
  let standardError = 0;
  let degreesOfFreedom = count - 1;
  let correlation = 0;
  let effectiveCount = count;
  if (squares > 0) {
    correlation = products / squares;
    effectiveCount = independentRows(count, autocorrelation(correlation, count));
    standardError = standardErrorOfMean(squares, count, effectiveCount);
    degreesOfFreedom = effectiveCount - 1;
    const byBatches = count >= rowsForBatches ? standardErrorByBatches(values, first, last, mean) : 0;
    if (byBatches > standardError) {
      standardError = byBatches;
      degreesOfFreedom = batches - 1;
    }
  }
  return { count, mean, deviation, standardError, degreesOfFreedom, drift, correlation, effectiveCount };
}
