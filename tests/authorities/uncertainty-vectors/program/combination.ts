import type { Exact } from "../../high-precision/decimal";
import { exact, sum } from "../../high-precision/decimal";
import { coverageFactor, type Freedom } from "./error-law";
import { rounded } from "./rounded";
import type { Source } from "./sources";

export interface Row extends Source {
  readonly sensitivity: Exact;
}

export interface Combined {
  readonly u: Exact;
  readonly effective: Exact | "infinite";
  readonly t: Exact;
  readonly shares: readonly Exact[];
}

/** JCGM 100:2008, 5.1.2 and G.4.1: independent rows add in squares, their degrees of freedom by Welch and Satterthwaite, truncated. */
export function combine(rows: readonly Row[]): Combined {
  const squares = rows.map(({ u, sensitivity }) => u.times(sensitivity).pow(2));
  const variance = sum(squares);
  const quarters = rows.map(({ dof }, i) =>
    dof === "infinite" ? exact(0) : (squares[i] ?? exact(0)).pow(2).dividedBy(exact(dof)),
  );
  const below = sum(quarters);
  const effective = below.isZero() ? "infinite" : variance.pow(2).dividedBy(below);
  const whole: Freedom =
    effective === "infinite" ? "infinite" : Math.max(1, effective.times("1.000000000001").floor().toNumber());
  return {
    u: variance.sqrt(),
    effective,
    t: coverageFactor(whole),
    shares: squares.map((square) => square.dividedBy(variance)),
  };
}

export function roundedFreedom(dof: Exact | Freedom): Freedom {
  return typeof dof === "number" || dof === "infinite" ? dof : rounded(dof);
}
