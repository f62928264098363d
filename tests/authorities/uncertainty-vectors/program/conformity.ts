import { exact } from "../../high-precision/decimal";
import { coverageFactor, probabilityBelow, type Freedom } from "./error-law";
import { rounded } from "./rounded";

interface Case {
  readonly result: number;
  readonly standard_uncertainty: number;
  readonly target: number;
  readonly dof: Freedom;
}

/**
 * A result against an upper limit T, ln y with standard uncertainty u/y: limits y·exp(±U/y), U = t·u; probability of conformance F(ln(T/y)/(u/y)); the three decision rules of
 * JCGM 106:2012 8.2 and 8.3 on the same scale. A case at a limit to 1e-9 is not decided here.
 */
export function conformity({ result, standard_uncertainty, target, dof }: Case) {
  const [y, u, T] = [exact(result), exact(standard_uncertainty), exact(target)];
  const [inHand, relative] = [T.dividedBy(y).ln(), u.dividedBy(y)];
  const expanded = coverageFactor(dof).times(relative);
  for (const edge of [inHand, inHand.minus(expanded), inHand.plus(expanded)])
    if (edge.abs().lessThan("1e-9")) throw new Error("a case at its limit");
  const isAbove = inHand.isNegative();
  const isProvenAbove = inHand.plus(expanded).isNegative();
  const isProvenBelow = inHand.greaterThan(expanded);
  return {
    result,
    standard_uncertainty,
    target,
    dof,
    U: rounded(expanded.times(y)),
    lower: rounded(y.times(expanded.negated().exp())),
    upper: rounded(y.times(expanded.exp())),
    probability: rounded(probabilityBelow(inHand.dividedBy(relative), dof)),
    plain: isAbove ? "fail" : "pass",
    guarded_acceptance: isProvenAbove ? "fail" : isProvenBelow ? "pass" : "not proven",
    guarded_rejection: isProvenAbove ? "fail" : "pass",
  };
}
