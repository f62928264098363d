import {
  type FittedLine,
  type LineErrors,
  lineUnderStated,
  type Moments,
  settled,
  statedDeviations,
  unweightedLine,
  weightsOf,
} from "./least-squares";
import type { LogReadings } from "./readings";

/** W·u_y², W·u_x² and W·ρ·u_x·u_y of each reading, W = 1/(u_y² + n²·u_x² − 2nρ·u_x·u_y): numbers of order 1 whatever the uncertainties. */
function adjustments(logs: LogReadings, exponent: number, { h, k }: Moments): number[] {
  const deviations = statedDeviations(logs, exponent)!;
  return deviations.map((deviation, index) => {
    const shareX = logs.uncertaintyX![index]! / deviation;
    const shareY = logs.uncertaintyY![index]! / deviation;
    const common = (logs.correlation?.[index] ?? 0) * shareX * shareY;
    const [dx, dy] = [h[index]!, k[index]!];
    return dx * shareY ** 2 + exponent * dy * shareX ** 2 - (exponent * dx + dy) * common;
  });
}

/**
 * Line with errors in both variables: W = 1/(u_y² + n²·u_x² − 2nρ·u_x·u_y), weighted means, β = W·(h·u_y² + n·k·u_x² − (n·h + k)·ρ·u_x·u_y),
 * n = ΣWβk/ΣWβh, repeated until n settles.
 * Source: D. York, N. M. Evensen, M. López Martínez, J. De Basabe Delgado, Am. J. Phys. 72 (2004) 367, eqn. 13.
 */
export function errorsInBothLine(logs: LogReadings): FittedLine {
  const { exponent } = settled(unweightedLine(logs).exponent, (slope) => {
    const sums = lineUnderStated(logs, slope).moments;
    const beta = adjustments(logs, slope, sums);
    let [sumK, sumH] = [0, 0];
    beta.forEach((value, index) => {
      sumK += sums.weights[index]! * value * sums.k[index]!;
      sumH += sums.weights[index]! * value * sums.h[index]!;
    });
    return { exponent: sumK / sumH };
  });
  return { exponent, moments: lineUnderStated(logs, exponent).moments };
}

/** Variances 1/ΣW and 1/ΣWv², v the adjusted x about their weighted mean. Source: York et al. (2004), eqns. 13 and 14. */
export function errorsInBothErrors(logs: LogReadings, line: FittedLine): LineErrors {
  const { weights, total, meanX } = line.moments;
  const { unit } = weightsOf(statedDeviations(logs, line.exponent)!);
  const beta = adjustments(logs, line.exponent, line.moments);
  const shift = beta.reduce((sum, value, index) => sum + weights[index]! * value, 0) / total;
  const spread = beta.reduce((sum, value, index) => sum + weights[index]! * (value - shift) ** 2, 0);
  return { turningX: meanX + shift, ofLevel: unit / Math.sqrt(total), ofExponent: unit / Math.sqrt(spread) };
}
