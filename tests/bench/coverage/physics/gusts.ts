import type { Draws } from "./draws";

/** Fluctuation of a pressure from second to second: a first-order autoregression, 0 is white noise. */
export interface Gusts {
  /** Standard deviation of a value of one second, Pa. */
  readonly deviation: number;
  /** Correlation of neighbouring seconds. */
  readonly autocorrelation: number;
}

/** Gusts of a number of seconds, Pa; the process is stationary from the first second. */
export function gustsOf({ deviation, autocorrelation }: Gusts, seconds: number, draws: Draws): number[] {
  const fresh = Math.sqrt(1 - autocorrelation ** 2);
  let level = 0;
  return Array.from({ length: seconds }, (_, second) => {
    level = second === 0 ? draws.normal() : autocorrelation * level + fresh * draws.normal();
    return deviation * level;
  });
}

/** Standard deviation of the mean over a number of seconds, Pa: σ²/k²·[k + 2·Σ(k − j)·φ^j]. */
export function deviationOfMean({ deviation, autocorrelation }: Gusts, seconds: number): number {
  let sum = seconds;
  for (let lag = 1; lag < seconds; lag++) sum += 2 * (seconds - lag) * autocorrelation ** lag;
  return (deviation * Math.sqrt(sum)) / seconds;
}
