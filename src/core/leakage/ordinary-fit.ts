import type { LeakageFit } from "./curve";
import { leastSquaresLine } from "./line";
import { requireFittable, type LeakageReading } from "./readings";

/**
 * Ordinary least squares of ln q on ln Δp: ln C = ȳ − n·x̄, s_n = s/√S_xx, s_lnC = s_n·√(Σx²/N), N − 2 degrees of freedom.
 * Errors: those of requireFittable.
 * Source: ISO 9972:2015, regression (from memory); ASTM E779; recomputed against a published worked example.
 */
export function ordinaryFit(readings: readonly LeakageReading[]): LeakageFit {
  requireFittable(readings);
  const line = leastSquaresLine(readings);
  const { count, exponent, meanLogPressure, meanLogFlow, sumOfSquaresOfLogPressure, sumOfSquaresOfLogFlow } = line;
  const degreesOfFreedom = count - 2;
  const residualDeviation = Math.sqrt(line.residualSum / degreesOfFreedom);
  const standardErrorOfExponent = residualDeviation / Math.sqrt(sumOfSquaresOfLogPressure);
  const logCoefficient = meanLogFlow - exponent * meanLogPressure;
  return {
    technique: "ordinary",
    count,
    degreesOfFreedom,
    coefficient: Math.exp(logCoefficient),
    logCoefficient,
    exponent,
    standardErrorOfExponent,
    standardErrorOfLogCoefficient: Math.hypot(
      residualDeviation / Math.sqrt(count),
      standardErrorOfExponent * meanLogPressure,
    ),
    // Flows that do not vary have nothing to be explained: r² is 0 by convention, which no standard accepts as a good fit.
    determination: sumOfSquaresOfLogFlow > 0 ? 1 - line.residualSum / sumOfSquaresOfLogFlow : 0,
    residualDeviation,
    meanLogPressure,
    meanLogFlow,
    sumOfSquaresOfLogPressure,
  };
}
