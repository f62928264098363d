import {
  againstScatter,
  type FittedLine,
  lineUnderStated,
  ofReadings,
  residualsOf,
  settled,
  statedDeviations,
  weightedErrors,
} from "./least-squares";
import type { LogReadings } from "./readings";

/**
 * Flow exponent where none was measured. RESNET/ICC 380 and ASTM E1827 assume it (from memory: check against your own copy).
 */
export const assumedExponent = 0.65;

/** Standard deviation of the exponent among buildings: 7 000 tests in the literature, mean 0.646. */
export const assumedExponentDeviation = 0.057;

/** A line whose slope lies between that of the readings and the expected exponent. */
type ExpectedExponentLine = FittedLine & Required<Pick<FittedLine, "prior">>;

/** u_d, the standard error of the slope of the readings alone. */
function deviationOfReadings(logs: LogReadings, line: ExpectedExponentLine): number {
  return againstScatter(logs, line).enlargement * weightedErrors(logs, line).ofExponent;
}

/** Readings and expected exponent together, under the weights that the slope `exponent` gives. */
function lineUnder(logs: LogReadings, exponent: number): ExpectedExponentLine {
  const { exponent: exponentOfReadings, moments: sums } = lineUnderStated(logs, exponent);
  const deviation = deviationOfReadings(logs, { exponent, moments: sums, prior: { share: 0, exponentOfReadings } });
  const share = 1 / (1 + (assumedExponentDeviation / deviation) ** 2);
  return {
    exponent: exponentOfReadings + share * (assumedExponent - exponentOfReadings),
    moments: sums,
    prior: { share, exponentOfReadings },
  };
}

/**
 * Weighted least squares with the exponents of other houses as a prior, n_0 = 0.65 with the standard deviation u_0 = 0.057. Weights 1/(u²(y) + n²·u²(x)). The
 * readings alone give n_d = S_xy/S_xx with u_d² = κ²/S_xx, κ² = χ²/(N − 2), where all uncertainties are stated not less than 1. Together they give
 * n = g·n_d + (1 − g)·n_0, g = u_0²/(u_0² + u_d²), u(n)² = g·u_d² = (1 − g)·u_0²; repeated until n settles. The prior says nothing of the level: the line goes
 * through the weighted means, u²(ln q_p) = κ²/W + (ℓ − x̄)²·u²(n). κ is estimated, g with it, so n keeps N − 2 degrees of freedom.
 * Source: a normal prior of known variance, A. Gelman et al., Bayesian Data Analysis (2013) 14.8 (from memory: check against your own copy); effective weights:
 * J. Orear, Am. J. Phys. 50 (1982) 912; 0.65 and 0.057 as in assumed-exponent.
 */
export function expectedExponentLine(logs: LogReadings): ExpectedExponentLine {
  return settled(assumedExponent, (exponent) => lineUnder(logs, exponent));
}

/**
 * What the line with expected exponent does when one reading moves: n_d moves, the scatter and with it the prior's share, and n moves the weights; the relative
 * uncertainties of the readings are held. The level is ln q at the weighted mean of the pressures. Derivatives in closed form: differences would step over the
 * place where the scatter begins to exceed what is stated.
 */
export function expectedExponentPulls(logs: LogReadings, line: ExpectedExponentLine) {
  const { weights, total, h, k, sumXX } = line.moments;
  const { exponent, prior } = line;
  const { share, exponentOfReadings } = prior;
  const residuals = residualsOf(ofReadings(line));
  const { degreesOfFreedom } = againstScatter(logs, line);
  const variance = deviationOfReadings(logs, line) ** 2;
  // ∂n/∂u_d² of n = n_d + share·(n_0 − n_d): the share grows with u_d² = κ²/S_xx. κ² is fixed where the stated uncertainties decide.
  const toVariance = (assumedExponent - exponentOfReadings) * ((1 - share) / assumedExponentDeviation) ** 2;
  const ofSquare = toVariance / sumXX / degreesOfFreedom;
  const ofSpread = (toVariance * variance) / sumXX;
  const ofSlope = (1 - share) / sumXX;

  // ∂ln w/∂n.
  const follow = statedDeviations(logs, exponent)!.map(
    (deviation, index) => -2 * exponent * (logs.uncertaintyX![index]! / deviation) ** 2,
  );
  const overWeights = (change: (index: number) => number) =>
    follow.reduce((sum, rate, index) => sum + rate * weights[index]! * change(index), 0);
  const ownEffect = overWeights(
    (i) => ofSlope * h[i]! * residuals[i]! + ofSquare * residuals[i]! ** 2 - ofSpread * h[i]! ** 2,
  );
  const levelByWeights = overWeights((i) => k[i]! - exponent * h[i]!) / total;

  return weights.map((weight, index) => {
    const [dx, residual] = [h[index]!, residuals[index]!];
    const toY = ofSlope * dx + 2 * ofSquare * residual;
    const toX = ofSlope * residual - exponentOfReadings * toY - 2 * ofSpread * dx;
    const exponentToY = (weight * toY) / (1 - ownEffect);
    const exponentToX = (weight * toX) / (1 - ownEffect);
    return {
      levelToY: weight / total + levelByWeights * exponentToY,
      levelToX: (-exponent * weight) / total + levelByWeights * exponentToX,
      exponentToY,
      exponentToX,
    };
  });
}
