import { againstScatter } from "./against-scatter";
import { assumedExponentDeviation } from "./assumed-exponent";
import type { LeakageFit } from "./curve";
import { methodOf, type OtherTechnique } from "./lines";
import { logReadings } from "./log-readings";
import { determinationOf, residualsOf } from "./moments";
import { coefficientOf } from "./ordinary-fit";
import { requireFittable, type LeakageReading } from "./readings";

/**
 * Fit by a technique other than the ordinary one. Standard errors are those of the stated uncertainties, with infinite degrees of freedom; where χ² exceeds N − 2
 * the readings scatter more than stated, and they are multiplied by √(χ²/(N − 2)), with N − 2 degrees of freedom. Without stated uncertainties they come
 * from the scatter. An expected exponent then weighs against n of the readings: u(n) = u_0·√share.
 * Errors: those of requireFittable, of logReadings and of the technique.
 * Source: as each technique's file names it; enlargement by χ²: R. T. Birge, Phys. Rev. 40 (1932) 207 (from memory).
 */
export function techniqueFit(readings: readonly LeakageReading[], technique: OtherTechnique): LeakageFit {
  requireFittable(readings);
  const logs = logReadings(readings, technique);
  const { line: lineOf, errors } = methodOf[technique];
  const line = lineOf(logs);
  const { exponent, prior } = line;
  const { meanX, meanY, sumXX } = line.moments;
  const count = readings.length;
  const { chiSquare, enlargement, degreesOfFreedom } = againstScatter(logs, line);

  const { turningX, ofLevel, ofExponent } = errors(logs, line);
  const standardErrorOfLevel = enlargement * ofLevel;
  const standardErrorOfExponent =
    prior === undefined ? enlargement * ofExponent : assumedExponentDeviation * Math.sqrt(prior.share);
  const meanLogPressure = logs.meanX + turningX;
  const logCoefficient = logs.meanY + meanY - exponent * (logs.meanX + meanX);
  const residualSum = residualsOf(line).reduce((sum, residual) => sum + residual ** 2, 0);
  return {
    technique,
    count,
    degreesOfFreedom,
    coefficient: coefficientOf(logCoefficient),
    logCoefficient,
    exponent,
    standardErrorOfExponent,
    standardErrorOfLogCoefficient: Math.hypot(standardErrorOfLevel, standardErrorOfExponent * meanLogPressure),
    determination: determinationOf(line.moments),
    residualDeviation: Math.sqrt(residualSum / (count - 2)),
    meanLogPressure,
    meanLogFlow: logs.meanY + meanY + exponent * (turningX - meanX),
    standardErrorOfLevel,
    sumOfSquaresOfLogPressure: sumXX,
    ...(chiSquare !== undefined && { chiSquare }),
    enlargement,
    ...(prior !== undefined && { prior }),
  };
}
