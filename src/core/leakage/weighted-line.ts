import type { LineErrors } from "./line-errors";
import type { LogReadings } from "./log-readings";
import { equalWeights, moments, ofReadings, residualsOf, type FittedLine } from "./moments";
import { settled } from "./settled";
import { statedDeviations, weightsOf } from "./stated-deviations";

/** Weights in proportion to q², over the largest. */
function squaredFlowWeights({ y }: LogReadings): number[] {
  const largest = y.reduce((most, value) => Math.max(most, value), -Infinity);
  return y.map((value) => Math.exp(2 * (value - largest)));
}

/** Least-squares line of y on x under weights: n = S_xy/S_xx. */
function lineUnder(logs: LogReadings, weights: readonly number[]): FittedLine {
  const sums = moments(logs, weights);
  return { exponent: sums.sumXY / sums.sumXX, moments: sums };
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
  const under = (exponent: number) => lineUnder(logs, weightsOf(statedDeviations(logs, exponent)!).weights);
  return uncertaintyX === undefined ? under(0) : settled(unweightedLine(logs).exponent, under);
}

/**
 * Variances 1/W and 1/S_xx from stated uncertainties; under relative weights and assumed uncertainties both times Σw·r²/(N − 2). Two readings have no scatter:
 * then what is assumed stands.
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
