import { ensure } from "../errors";
import { smallest } from "../numbers";
import { equalWeights, type FittedLine, type LineErrors, moments, residualsOf } from "./least-squares";
import type { LogReadings } from "./readings";

/** n = √(S_yy/S_xx) through the means. Errors: flows that do not vary; flow that does not rise with pressure. */
function lineUnder(logs: LogReadings, weights: readonly number[]): FittedLine {
  const sums = moments(logs, weights);
  ensure(sums.sumYY > 0, "flows", "flowsAlike");
  ensure(sums.sumXY > 0, "flows", "flowNotRising");
  return { exponent: Math.sqrt(sums.sumYY / sums.sumXX), moments: sums };
}

/**
 * Line of organic correlation, the same whichever of x and y is put first; it minimizes Σ|Δx·Δy|.
 * Source: B. Delmotte, "Airtightness of buildings: considerations regarding the zero-flow pressure and the weighted line of organic correlation" (2013), as an
 * abstract; the line itself is that of the reduced major axis, W. H. Kruskal, Biometrics 9 (1953) 47 (from memory).
 */
export function organicLine(logs: LogReadings): FittedLine {
  return lineUnder(logs, equalWeights(logs.x.length));
}

/** u(n) = n·√((1 − r²)/(N − 2)), σ² = 2·S_yy·(1 − r)/(N − 2). 1 − r comes from the residuals: as a difference it would be lost on readings that fit. */
export function organicErrors(_: LogReadings, line: FittedLine): LineErrors {
  const { sumYY } = line.moments;
  const residuals = residualsOf(line);
  const count = residuals.length;
  const sum = residuals.reduce((total, residual) => total + residual ** 2, 0);
  const lack = sum / (2 * sumYY);
  return {
    turningX: line.moments.meanX,
    ofLevel: Math.sqrt(sum / (count - 2) / count),
    ofExponent: line.exponent * Math.sqrt((lack * (2 - lack)) / (count - 2)),
  };
}

/**
 * Weighted line of organic correlation: minimizes Σw·|Δx·Δy| with w = 1/(u_x·u_y).
 * Source: the literature weights by the uncertainties of both on the logarithms (Delmotte 2013; Kölsch and Walker 2020; abstracts only); these weights are this
 * project's reading of it, symmetric in x and y.
 */
export function weightedOrganicLine(logs: LogReadings): FittedLine {
  const { uncertaintyX, uncertaintyY } = logs;
  const [leastX, leastY] = [smallest(uncertaintyX!), smallest(uncertaintyY!)];
  const weights = uncertaintyX!.map((value, index) => (leastX / value) * (leastY / uncertaintyY![index]!));
  return lineUnder(logs, weights);
}

/** What a line of organic correlation does when one reading moves, weights held; the level is ln q at the means. */
export function organicPulls({ exponent, moments: { weights, total, h, k, sumXX, sumYY } }: FittedLine, index: number) {
  const weight = weights[index]!;
  return {
    levelToY: weight / total,
    levelToX: (-exponent * weight) / total,
    exponentToY: (exponent * weight * k[index]!) / sumYY,
    exponentToX: (-exponent * weight * h[index]!) / sumXX,
  };
}

/** Variances Σ(derivative·u)², with the turning point where level and slope are independent. */
export function weightedOrganicErrors({ uncertaintyX, uncertaintyY }: LogReadings, line: FittedLine): LineErrors {
  let [ofLevel, common, ofExponent] = [0, 0, 0];
  const add = (level: number, exponent: number, uncertainty: number) => {
    ofLevel += (level * uncertainty) ** 2;
    common += level * exponent * uncertainty ** 2;
    ofExponent += (exponent * uncertainty) ** 2;
  };
  uncertaintyY!.forEach((uncertainty, index) => {
    const pulls = organicPulls(line, index);
    add(pulls.levelToY, pulls.exponentToY, uncertainty);
    add(pulls.levelToX, pulls.exponentToX, uncertaintyX![index]!);
  });
  const shift = common / ofExponent;
  return {
    turningX: line.moments.meanX - shift,
    ofLevel: Math.sqrt(Math.max(0, ofLevel - common * shift)),
    ofExponent: Math.sqrt(ofExponent),
  };
}
