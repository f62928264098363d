import { againstScatter } from "./against-scatter";
import { assumedExponent, assumedExponentDeviation } from "./assumed-exponent";
import type { LogReadings } from "./log-readings";
import { moments, type FittedLine } from "./moments";
import { settled } from "./settled";
import { statedDeviations, weightsOf } from "./stated-deviations";
import { weightedErrors } from "./weighted-line";

/** A line whose slope lies between that of the readings and the expected exponent. */
export type ExpectedExponentLine = FittedLine & Required<Pick<FittedLine, "prior">>;

/** u_d, the standard error of the slope of the readings alone. */
export function deviationOfReadings(logs: LogReadings, line: ExpectedExponentLine): number {
  return againstScatter(logs, line).enlargement * weightedErrors(logs, line).ofExponent;
}

/** Readings and expected exponent together, under the weights that the slope `exponent` gives. */
function lineUnder(logs: LogReadings, exponent: number): ExpectedExponentLine {
  const sums = moments(logs, weightsOf(statedDeviations(logs, exponent)!).weights);
  const exponentOfReadings = sums.sumXY / sums.sumXX;
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
