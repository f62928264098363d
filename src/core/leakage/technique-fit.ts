import type { LeakageFit } from "./curve";
import { methodOf, type OtherTechnique } from "./lines";
import { logReadings, type LogReadings } from "./log-readings";
import { determinationOf, residualsOf, type FittedLine } from "./moments";
import { coefficientOf } from "./ordinary-fit";
import { requireFittable, type LeakageReading } from "./readings";
import { statedDeviations } from "./stated-deviations";

/**
 * Fit by a technique other than the ordinary one. Standard errors are those of the stated uncertainties, with infinite degrees of freedom; where χ² exceeds N − 2
 * the readings scatter more than stated, and they are multiplied by √(χ²/(N − 2)), with N − 2 degrees of freedom. Without stated uncertainties they come
 * from the scatter.
 * Errors: those of requireFittable, of logReadings and of the technique.
 * Source: as each technique's file names it; enlargement by χ²: R. T. Birge, Phys. Rev. 40 (1932) 207 (from memory).
 */
export function techniqueFit(readings: readonly LeakageReading[], technique: OtherTechnique): LeakageFit {
  requireFittable(readings);
  const logs = logReadings(readings, technique);
  const { line: lineOf, errors } = methodOf[technique];
  const line = lineOf(logs);
  const { exponent } = line;
  const { meanX, meanY, sumXX } = line.moments;
  const count = readings.length;
  const { chiSquare, enlargement, degreesOfFreedom } = againstScatter(logs, line, count - 2);

  const { turningX, ofLevel, ofExponent } = errors(logs, line);
  const standardErrorOfLevel = enlargement * ofLevel;
  const standardErrorOfExponent = enlargement * ofExponent;
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
  };
}

/** χ² against the stated uncertainties, and what follows from it. */
function againstScatter(
  logs: LogReadings,
  line: FittedLine,
  fromScatter: number,
): Pick<LeakageFit, "enlargement" | "degreesOfFreedom"> & { readonly chiSquare?: number } {
  const deviations = statedDeviations(logs, line.exponent);
  if (deviations === undefined) return { enlargement: 1, degreesOfFreedom: fromScatter };
  const residuals = residualsOf(line);
  const chiSquare = deviations.reduce((sum, deviation, index) => sum + (residuals[index]! / deviation) ** 2, 0);
  return chiSquare > fromScatter
    ? { chiSquare, enlargement: Math.sqrt(chiSquare / fromScatter), degreesOfFreedom: fromScatter }
    : { chiSquare, enlargement: 1, degreesOfFreedom: Infinity };
}
