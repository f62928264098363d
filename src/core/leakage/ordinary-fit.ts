import type { LeakageFit } from "./curve";
import { centredLogs, type LeakageReading } from "./readings";

/**
 * Ordinary least squares of ln q on ln Δp: n = S_xy/S_xx, ln C = ȳ − n·x̄, s_n = s/√S_xx, s_lnC = s_n·√(Σx²/N), N − 2 degrees of freedom.
 * The residual sum is taken from the residuals themselves: S_yy − n·S_xy would lose every digit on readings that fit exactly.
 * Source: ISO 9972:2015, regression (from memory); ASTM E779; recomputed against a published worked example.
 */
export function ordinaryFit(readings: readonly LeakageReading[]): LeakageFit {
  const { count, meanX, meanY, x, y, sumXX, sumXY, sumYY } = centredLogs(readings);
  const exponent = sumXY / sumXX;
  let residualSum = 0;
  for (let index = 0; index < count; index++) residualSum += (y[index]! - exponent * x[index]!) ** 2;
  const degreesOfFreedom = count - 2;
  const residualDeviation = Math.sqrt(residualSum / degreesOfFreedom);
  const standardErrorOfExponent = residualDeviation / Math.sqrt(sumXX);
  const logCoefficient = meanY - exponent * meanX;
  return {
    technique: "ordinary",
    count,
    degreesOfFreedom,
    coefficient: Math.exp(logCoefficient),
    logCoefficient,
    exponent,
    standardErrorOfExponent,
    standardErrorOfLogCoefficient: Math.hypot(residualDeviation / Math.sqrt(count), standardErrorOfExponent * meanX),
    // Flows that do not vary have nothing to be explained: r² is 0 by convention, which no standard accepts as a good fit.
    determination: sumYY > 0 ? 1 - residualSum / sumYY : 0,
    residualDeviation,
    meanLogPressure: meanX,
    meanLogFlow: meanY,
    sumOfSquaresOfLogPressure: sumXX,
  };
}
