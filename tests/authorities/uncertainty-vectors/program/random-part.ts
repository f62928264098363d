import type { Exact } from "../../high-precision/decimal";
import { chiSquareProbability } from "../../high-precision/chi-square";
import { at, exact, sum } from "../../high-precision/decimal";
import { derivatives, normalEquations, type Points } from "../../high-precision/techniques";
import { lineThrough, residuals, type Line } from "./fits";
import type { DirectionInputs, Technique } from "./inputs";

/** Noise of one reading: of the pressure in Pa and of ln q. */
interface Noise {
  readonly ofPressure: Exact;
  readonly ofFlow: Exact;
  readonly isStated: boolean;
}

/** The random part of one direction: its shape u_P and u_q, its size κ, and what it makes of the line. */
export interface RandomPart {
  readonly noise: Noise;
  readonly chi2: Exact;
  readonly kappa2: Exact;
  readonly dof: number | "infinite";
  /** Standard uncertainty of n. */
  readonly ofExponent: Exact;
  /** Standard uncertainty of the line at an abscissa. */
  readonly ofFlow: (abscissa: Exact) => Exact;
  /** b_i, and a_i at an abscissa: sensitivities of n and of the line to ln q of each reading. */
  readonly exponentToFlows: readonly Exact[];
  readonly flowToFlows: (abscissa: Exact) => Exact[];
}

/** As stated; else the pressure from the scatter of the baseline's rows, else 1 Pa; the flow 0.5 % beside either of the first two, 1 % beside the last. */
export function noiseOf(given: DirectionInputs, ofRows: Exact | undefined): Noise {
  const found = given.pressure_uncertainty === null ? ofRows : exact(given.pressure_uncertainty);
  const assumed = exact(found === undefined ? "0.01" : "0.005");
  return {
    ofPressure: found ?? exact(1),
    ofFlow: given.flow_uncertainty === null ? assumed : exact(given.flow_uncertainty),
    isStated: given.pressure_uncertainty !== null && given.flow_uncertainty !== null,
  };
}

/**
 * κ² = χ²/(N − 2) with N − 2 degrees of freedom, χ² about the line that the noise as weights makes, whatever line the technique draws. Where both parts of the noise are stated κ is at least 1 and
 * known, unless χ² is above its 97.5 % point.
 */
export function randomPart(technique: Technique, points: Points, line: Line, noise: Noise): RandomPart {
  const inLogarithm = points.x.map((x) => noise.ofPressure.dividedBy(x.exp()));
  const weights = inLogarithm.map((u) => exact(1).dividedBy(line.n.times(u).pow(2).plus(noise.ofFlow.pow(2))));
  const squares = residuals(points, normalEquations(points, weights)).map((residual) => residual.pow(2));
  const chi2 = sum(squares.map((square, i) => square.times(at(weights, i))));
  const freedom = points.x.length - 2;
  const found = chi2.dividedBy(freedom);
  const isKnown = noise.isStated && chiSquareProbability(chi2, freedom).lessThanOrEqualTo("0.975");
  const kappa2 = noise.isStated && found.lessThan(1) ? exact(1) : found;
  const moves = derivatives(points, lineThrough(technique, points));
  const spread = (of: (line: Line) => Exact) => {
    const squares = moves.map(({ x, y }, i) => {
      const [byPressure, byFlow] = [of(x).times(at(inLogarithm, i)), of(y).times(noise.ofFlow)];
      return byPressure.pow(2).plus(byFlow.pow(2));
    });
    return kappa2.times(sum(squares)).sqrt();
  };
  return {
    noise,
    chi2,
    kappa2,
    dof: isKnown ? "infinite" : freedom,
    ofExponent: spread(({ n }) => n),
    ofFlow: (abscissa) => spread(({ n, a }) => a.plus(n.times(abscissa))),
    exponentToFlows: moves.map(({ y }) => y.n),
    flowToFlows: (abscissa) => moves.map(({ y }) => y.a.plus(y.n.times(abscissa))),
  };
}
