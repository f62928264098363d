import { at, type Exact } from "../../high-precision/decimal";
import {
  errorsInBothLine,
  normalEquations,
  ones,
  organicUnder,
  organicWeights,
  weighted,
  type Points,
} from "../../high-precision/techniques";
import type { Technique } from "./inputs";

/** ln q = a + n·ln Δp. */
export interface Line {
  readonly n: Exact;
  readonly a: Exact;
}

/**
 * How a technique finds the line through points that errors have moved. The relative uncertainties of the readings, and the weights made of them or of q², are those of the
 * points as read; weights that depend on the slope follow it.
 */
export function lineThrough(technique: Technique, read: Points): (moved: Points) => Line {
  const withUncertainties = ({ x, y }: Points): Points => ({ ...read, x, y });
  switch (technique) {
    case "ordinary":
      return (moved) => normalEquations(moved, ones(moved));
    case "weighted": {
      if (read.uy !== undefined) return (moved) => weighted(withUncertainties(moved));
      const squaredFlows = read.y.map((y) => y.times(2).exp());
      return (moved) => normalEquations(moved, squaredFlows);
    }
    case "organic correlation":
      return (moved) => organicUnder(moved, ones(moved));
    case "weighted organic correlation": {
      const weights = organicWeights(read);
      return (moved) => organicUnder(moved, weights);
    }
    case "errors in both":
      return (moved) => errorsInBothLine(withUncertainties(moved));
  }
}

/** Residuals of ln q about a line. */
export function residuals({ x, y }: Points, { n, a }: Line): Exact[] {
  return x.map((value, i) => at(y, i).minus(a).minus(n.times(value)));
}
