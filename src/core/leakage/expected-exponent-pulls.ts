import { againstScatter } from "./against-scatter";
import { assumedExponent, assumedExponentDeviation } from "./assumed-exponent";
import { deviationOfReadings, type ExpectedExponentLine } from "./expected-exponent-line";
import type { LogReadings } from "./log-readings";
import { ofReadings, residualsOf } from "./moments";
import { statedDeviations } from "./stated-deviations";

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
