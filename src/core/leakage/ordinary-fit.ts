import type { LeakageFit } from "./curve";
import { ensure } from "../errors";
import { leastSquaresLine, type Line } from "./line";
import { requireFittable, type LeakageReading } from "./readings";

/**
 * Ordinary least squares of ln q on ln Δp: ln C = ȳ − n·x̄, s_n = s/√S_xx, s_lnC = s_n·√(Σx²/N), N − 2 degrees of freedom.
 * Errors: those of requireFittable.
 * Source: ISO 9972:2015, regression (from memory); ASTM E779; recomputed against a published worked example.
 */
export function ordinaryFit(readings: readonly LeakageReading[]): LeakageFit {
  requireFittable(readings);
  const line = leastSquaresLine(readings);
  const { count, exponent, meanLogPressure, meanLogFlow, sumOfSquaresOfLogPressure } = line;
  const degreesOfFreedom = count - 2;
  const residualDeviation = Math.sqrt(line.residualSum / degreesOfFreedom);
  const standardErrorOfExponent = residualDeviation / Math.sqrt(sumOfSquaresOfLogPressure);
  const logCoefficient = meanLogFlow - exponent * meanLogPressure;
  const standardErrorOfLevel = residualDeviation / Math.sqrt(count);
  return {
    technique: "ordinary",
    count,
    degreesOfFreedom,
    coefficient: coefficientOf(logCoefficient),
    logCoefficient,
    exponent,
    standardErrorOfExponent,
    standardErrorOfLogCoefficient: Math.hypot(standardErrorOfLevel, standardErrorOfExponent * meanLogPressure),
    determination: determination(line),
    residualDeviation,
    meanLogPressure,
    meanLogFlow,
    standardErrorOfLevel,
    sumOfSquaresOfLogPressure,
    enlargement: 1,
  };
}

/** C from its logarithm. Errors: it is beyond what a number can hold. */
export function coefficientOf(logCoefficient: number): number {
  const coefficient = Math.exp(logCoefficient);
  ensure(
    coefficient > 0 && coefficient < Infinity,
    "pressures",
    "the pressures lie so near together that no coefficient follows",
  );
  return coefficient;
}

/**
 * r² of the logarithms; from the residuals where they are small and from the line where it explains little, so that both ends keep their digits.
 * Flows that do not vary have nothing to be explained: r² is 0 by convention, which no standard accepts as a good fit.
 */
function determination({ exponent, residualSum, sumOfSquaresOfLogPressure, sumOfSquaresOfLogFlow }: Line): number {
  if (!(sumOfSquaresOfLogFlow > 0)) return 0;
  const unexplained = residualSum / sumOfSquaresOfLogFlow;
  return unexplained < 0.5 ? 1 - unexplained : (exponent ** 2 * sumOfSquaresOfLogPressure) / sumOfSquaresOfLogFlow;
}
