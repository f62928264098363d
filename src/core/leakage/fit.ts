import { ensure } from "../errors";
import type { LeakageFit, Technique } from "./curve";
import { errorsInBothErrors, errorsInBothLine } from "./errors-in-both";
import { assumedExponentDeviation, expectedExponentLine } from "./expected-exponent";
import {
  againstScatter,
  determinationOf,
  type FittedLine,
  leastSquaresLine,
  type Line,
  type LineErrors,
  residualsOf,
  weightedErrors,
  weightedLine,
} from "./least-squares";
import { organicErrors, organicLine, weightedOrganicErrors, weightedOrganicLine } from "./organic-correlation";
import { type LeakageReading, type LogReadings, logReadings, requireFittable } from "./readings";

/** How a technique finds its line, for two readings or more, and the standard errors of it, for three or more. */
interface Method {
  readonly line: (logs: LogReadings) => FittedLine;
  readonly errors: (logs: LogReadings, line: FittedLine) => LineErrors;
}

/** Every technique but the ordinary one, which has a shorter way. */
export type OtherTechnique = Exclude<Technique, "ordinary">;

/** The one list of what the techniques do; fit, sensitivities and influences go by it. */
export const methodOf: Readonly<Record<OtherTechnique, Method>> = {
  weighted: { line: weightedLine, errors: weightedErrors },
  "organic correlation": { line: organicLine, errors: organicErrors },
  "weighted organic correlation": { line: weightedOrganicLine, errors: weightedOrganicErrors },
  "errors in both": { line: errorsInBothLine, errors: errorsInBothErrors },
  "weighted with expected exponent": { line: expectedExponentLine, errors: weightedErrors },
};

/**
 * Ordinary least squares of ln q on ln Δp: ln C = ȳ − n·x̄, s_n = s/√S_xx, s_lnC = s_n·√(Σx²/N), N − 2 degrees of freedom.
 * Errors: those of requireFittable.
 * Source: ISO 9972:2015, regression (from memory); ASTM E779; recomputed against a published worked example.
 */
function ordinaryFit(readings: readonly LeakageReading[]): LeakageFit {
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
function coefficientOf(logCoefficient: number): number {
  const coefficient = Math.exp(logCoefficient);
  ensure(coefficient > 0 && coefficient < Infinity, "pressures", "pressuresAlike");
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

/**
 * Fit by a technique other than the ordinary one. Standard errors are those of the stated uncertainties, with infinite degrees of freedom; where χ² exceeds N − 2
 * the readings scatter more than stated, and they are multiplied by √(χ²/(N − 2)), with N − 2 degrees of freedom. Without stated uncertainties they come
 * from the scatter. An expected exponent then weighs against n of the readings: u(n) = u_0·√share.
 * Errors: those of requireFittable, of logReadings and of the technique.
 * Source: as each technique's file names it; enlargement by χ²: R. T. Birge, Phys. Rev. 40 (1932) 207 (from memory).
 */
function techniqueFit(readings: readonly LeakageReading[], technique: OtherTechnique): LeakageFit {
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

/**
 * Fits the leakage curve by the technique named. Errors: those of ordinaryFit and techniqueFit.
 * Example: fitLeakage([{ pressure: 10, flow: 237, row: 1 }, { pressure: 20, flow: 364, row: 2 }, { pressure: 30, flow: 444, row: 3 },
 *   { pressure: 40, flow: 625, row: 4 }, { pressure: 50, flow: 688, row: 5 }, { pressure: 60, flow: 704, row: 6 }], "ordinary")
 *   → { coefficient: 53.3956, exponent: 0.6434, standardErrorOfExponent: 0.0442, determination: 0.9815, … }
 */
export function fitLeakage(readings: readonly LeakageReading[], technique: Technique): LeakageFit {
  return technique === "ordinary" ? ordinaryFit(readings) : techniqueFit(readings, technique);
}
