import { ensure, invalid } from "../errors";
import { largest, smallest } from "../numbers";
import type { PriorPart } from "./curve";
import { type LeakageReading, logReadings, type LogReadings } from "./readings";

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

/**
 * Centred weighted sums of logarithms. Errors: the weights leave no two different pressures.
 * Example: moments({ x: [0, 1], y: [0, 2] }, [1, 1]).sumXY → 1
 */
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
  ensure(sumXX > 0, "pressures", "pressuresAlike");
  return { weights, total, meanX, meanY, h, k, sumXX, sumXY, sumYY };
}

/** The same weight for every reading. */
export function equalWeights(count: number): number[] {
  return Array<number>(count).fill(1);
}

/**
 * Residuals of y, a logarithm, from the line.
 * Example: residualsOf({ exponent: 2, moments: moments({ x: [0, 1], y: [0, 2] }, [1, 1]) }) → [0, 0]
 */
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

/** Least-squares line of ln q on ln Δp with what its uncertainty needs. */
export interface Line {
  readonly count: number;
  readonly exponent: number;
  readonly meanLogPressure: number;
  readonly meanLogFlow: number;
  readonly sumOfSquaresOfLogPressure: number;
  readonly sumOfSquaresOfLogFlow: number;
  /** Sum of the squared residuals of ln q. */
  readonly residualSum: number;
}

/**
 * Least-squares line through the logarithms: n = S_xy/S_xx. The residual sum is taken from the residuals themselves: S_yy − n·S_xy would lose
 * every digit on readings that fit exactly. The readings must be above 0 and their pressures must vary.
 * Source: ISO 9972:2015, regression (from memory); ASTM E779; recomputed against a published worked example.
 */
export function leastSquaresLine(readings: readonly LeakageReading[]): Line {
  const { meanX: meanLogPressure, meanY: meanLogFlow, x, y } = logReadings(readings, "ordinary");
  let [sumXX, sumXY, sumYY] = [0, 0, 0];
  for (let index = 0; index < x.length; index++) {
    const [h, k] = [x[index]!, y[index]!];
    sumXX += h * h;
    sumXY += h * k;
    sumYY += k * k;
  }
  const exponent = sumXY / sumXX;
  let residualSum = 0;
  for (let index = 0; index < x.length; index++) residualSum += (y[index]! - exponent * x[index]!) ** 2;
  return {
    count: x.length,
    exponent,
    meanLogPressure,
    meanLogFlow,
    sumOfSquaresOfLogPressure: sumXX,
    sumOfSquaresOfLogFlow: sumYY,
    residualSum,
  };
}

/**
 * Standard errors of a line. At `turningX`, a deviation from the plain mean of ln Δp, the errors of level and slope are independent, so that
 * u²(ln q_p) = ofLevel² + (ℓ − turning point)²·ofExponent² and cov(n, ln C) = −(turning point)·ofExponent².
 */
export interface LineErrors {
  readonly turningX: number;
  readonly ofLevel: number;
  readonly ofExponent: number;
}

const tolerance = 1e-13;
const mostSteps = 200;

/**
 * Repeats a step on the slope until it moves by no more than 1e-13 of itself. Errors: not settled after 200 steps; then no line is given rather than a guess.
 */
export function settled<Line extends { readonly exponent: number }>(
  start: number,
  step: (exponent: number) => Line,
): Line {
  let exponent = start;
  for (let count = 0; count < mostSteps; count++) {
    const line = step(exponent);
    if (Math.abs(line.exponent - exponent) <= tolerance * Math.abs(line.exponent)) return line;
    exponent = line.exponent;
  }
  throw invalid("technique", "lineNotSettled", { steps: mostSteps });
}

/**
 * Standard deviation with which each reading should lie off the line in y, by its stated uncertainties: √(u_y² + n²·u_x² − 2nρ·u_x·u_y), as a sum of two
 * squares. Undefined where none were stated.
 */
export function statedDeviations(logs: LogReadings, exponent: number): number[] | undefined {
  const { uncertaintyX, uncertaintyY, correlation } = logs;
  return uncertaintyY?.map((deviation, index) => {
    const across = exponent * (uncertaintyX?.[index] ?? 0);
    const rho = correlation?.[index] ?? 0;
    return Math.hypot(deviation - rho * across, across * Math.sqrt(1 - rho * rho));
  });
}

/** Weights 1/σ² over the largest of them, and the σ of weight 1. Errors: a deviation of 0, which no weight can follow. */
export function weightsOf(deviations: readonly number[]): { weights: number[]; unit: number } {
  const unit = smallest(deviations);
  ensure(unit > 0 && unit < Infinity, "flow uncertainty", "tooLarge");
  return { weights: deviations.map((deviation) => (unit / deviation) ** 2), unit };
}

/** Weights in proportion to q², over the largest. */
function squaredFlowWeights({ y }: LogReadings): number[] {
  const most = largest(y);
  return y.map((value) => Math.exp(2 * (value - most)));
}

/** Least-squares line of y on x under weights: n = S_xy/S_xx. */
function lineUnder(logs: LogReadings, weights: readonly number[]): FittedLine {
  const sums = moments(logs, weights);
  return { exponent: sums.sumXY / sums.sumXX, moments: sums };
}

/** The least-squares line under the weights that the stated uncertainties have for a line of this slope. */
export function lineUnderStated(logs: LogReadings, exponent: number): FittedLine {
  return lineUnder(logs, weightsOf(statedDeviations(logs, exponent)!).weights);
}

/** The ordinary line, where the iterations start. */
export function unweightedLine(logs: LogReadings): FittedLine {
  return lineUnder(logs, equalWeights(logs.x.length));
}

/**
 * Weighted least squares. Weights: 1/u²(y) where flows have uncertainties; 1/(u²(y) + n²·u²(x)), repeated until n settles, where pressures have them too; q²
 * where nothing is stated.
 * Source: ISO/TS 28037:2010 clause 6; CAN/CGSB-149.10 for q² (from memory: check against your own copy); effective weights: J. Orear, Am. J. Phys. 50 (1982) 912.
 */
export function weightedLine(logs: LogReadings): FittedLine {
  const { uncertaintyX, uncertaintyY } = logs;
  if (uncertaintyY === undefined) return lineUnder(logs, squaredFlowWeights(logs));
  const under = (exponent: number) => lineUnderStated(logs, exponent);
  return uncertaintyX === undefined ? under(0) : settled(unweightedLine(logs).exponent, under);
}

/**
 * Variances 1/W and 1/S_xx from stated uncertainties; under relative weights and assumed uncertainties both times Σw·r²/(N − 2). Two readings have no scatter:
 * then the assumed values are kept.
 */
export function weightedErrors(logs: LogReadings, line: FittedLine): LineErrors {
  const { weights, total, meanX, sumXX } = line.moments;
  const deviations = statedDeviations(logs, line.exponent);
  const isScatter = deviations === undefined || (logs.assumed === true && weights.length > 2);
  const unit = isScatter ? scatterUnder(weights, residualsOf(ofReadings(line))) : weightsOf(deviations).unit;
  return { turningX: meanX, ofLevel: unit / Math.sqrt(total), ofExponent: unit / Math.sqrt(sumXX) };
}

/** Standard deviation of a reading of weight 1, from the scatter. */
function scatterUnder(weights: readonly number[], residuals: readonly number[]): number {
  const sum = residuals.reduce((total, residual, index) => total + weights[index]! * residual ** 2, 0);
  return Math.sqrt(sum / (residuals.length - 2));
}

/** What the scatter about the line says about the stated uncertainties. */
interface AgainstScatter {
  readonly chiSquare?: number;
  /** √(χ²/(N − 2)) where that exceeds 1, else 1. */
  readonly enlargement: number;
  /** N − 2 where the scatter decides; infinite where the stated uncertainties do. */
  readonly degreesOfFreedom: number;
}

/**
 * χ² = Σr²/(u²(y) + n²·u²(x)) against the stated uncertainties, and what follows from it. Nothing does where they are not stated, or only assumed: there the
 * standard errors come from the scatter directly.
 */
export function againstScatter(logs: LogReadings, line: FittedLine): AgainstScatter {
  const free = logs.x.length - 2;
  const deviations = logs.assumed === true ? undefined : statedDeviations(logs, line.exponent);
  if (deviations === undefined) return { enlargement: 1, degreesOfFreedom: free };
  const residuals = residualsOf(ofReadings(line));
  const chiSquare = deviations.reduce((sum, deviation, index) => sum + (residuals[index]! / deviation) ** 2, 0);
  return free > 0 && chiSquare > free
    ? { chiSquare, enlargement: Math.sqrt(chiSquare / free), degreesOfFreedom: free }
    : { chiSquare, enlargement: 1, degreesOfFreedom: Infinity };
}
