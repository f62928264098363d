import { ensure } from "../errors";
import type { PriorPart } from "./curve";
import type { LogReadings } from "./log-readings";

/** Weighted means of the logarithms and the sums about them. Means are deviations from the plain means of the readings. */
export interface Moments {
  /** Relative weights, the largest 1, so that no unit makes them overflow. */
  readonly weights: readonly number[];
  readonly total: number;
  readonly meanX: number;
  readonly meanY: number;
  /** x and y about their weighted means. */
  readonly h: readonly number[];
  readonly k: readonly number[];
  readonly sumXX: number;
  readonly sumXY: number;
  readonly sumYY: number;
}

/** Line of a technique: its slope, the point through which it goes, and what it was made of. */
export interface FittedLine {
  readonly exponent: number;
  readonly moments: Moments;
  /** What the expected exponent did to the slope, where the technique has one. */
  readonly prior?: PriorPart;
}

/** The line of the readings alone: the line itself, unless an expected exponent draws it away. */
export function ofReadings({ exponent, moments, prior }: FittedLine): FittedLine {
  return { exponent: prior?.exponentOfReadings ?? exponent, moments };
}

/** Weighted mean from the first value on, so that equal values give exactly that value; corrected once by the mean of the deviations. */
function weightedMean(values: readonly number[], weights: readonly number[], total: number): number {
  const meanFrom = (origin: number) => {
    let sum = 0;
    for (let index = 0; index < values.length; index++) sum += weights[index]! * (values[index]! - origin);
    return origin + sum / total;
  };
  return meanFrom(meanFrom(values[0]!));
}

/** Centred weighted sums. Errors: the weights leave no two different pressures. */
export function moments({ x, y }: Pick<LogReadings, "x" | "y">, weights: readonly number[]): Moments {
  let total = 0;
  for (const weight of weights) total += weight;
  const [meanX, meanY] = [weightedMean(x, weights, total), weightedMean(y, weights, total)];
  const [h, k] = [x.map((value) => value - meanX), y.map((value) => value - meanY)];
  let [sumXX, sumXY, sumYY] = [0, 0, 0];
  for (let index = 0; index < h.length; index++) {
    const [weight, dx, dy] = [weights[index]!, h[index]!, k[index]!];
    sumXX += weight * dx * dx;
    sumXY += weight * dx * dy;
    sumYY += weight * dy * dy;
  }
  ensure(sumXX > 0, "pressures", "under these weights the pressures do not vary: a line needs different pressures");
  return { weights, total, meanX, meanY, h, k, sumXX, sumXY, sumYY };
}

/** The same weight for every reading. */
export function equalWeights(count: number): number[] {
  return Array<number>(count).fill(1);
}

/** Residuals of y from the line. */
export function residualsOf({ exponent, moments: { h, k } }: FittedLine): number[] {
  return h.map((dx, index) => k[index]! - exponent * dx);
}

/** r² under the weights; from the residuals of the least-squares line where they are small, so that both ends keep their digits. */
export function determinationOf(of: Moments): number {
  const { weights, sumXX, sumXY, sumYY } = of;
  if (!(sumYY > 0)) return 0;
  const slope = sumXY / sumXX;
  const residuals = residualsOf({ exponent: slope, moments: of });
  const unexplained = residuals.reduce((sum, residual, index) => sum + weights[index]! * residual ** 2, 0) / sumYY;
  return unexplained < 0.5 ? 1 - unexplained : (slope * sumXY) / sumYY;
}
