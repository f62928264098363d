import type { Exact } from "../../high-precision/decimal";
import { Decimal, exact } from "../../high-precision/decimal";
import { normalProbability } from "../../high-precision/normal";
import { quadrature } from "../../high-precision/quadrature";
import { coverageFactor, probabilityBelow, type Freedom } from "./error-law";
import { rounded } from "./rounded";

interface Case {
  readonly result: number;
  readonly standard_uncertainty: number;
  readonly target: number;
  readonly dof: Freedom;
  readonly prior_mean: number;
  readonly prior_deviation: number;
  readonly rule: string;
}

/** Where nothing that fifteen digits could show is left of a normal tail. */
function probability(z: Exact): Exact {
  if (z.abs().greaterThan(10)) return exact(z.isNegative() ? 0 : 1);
  return normalProbability(z);
}

/**
 * P(Z1 > h, Z2 ≤ k) of two standard normal variables, Z2 = (w·Z1 + e)/… with correlation cos α, from R. L. Plackett, Biometrika 41 (1954) 351: the derivative by the correlation is the
 * density, integrated from correlation 1, where the probability is max(0, Φ(k) − Φ(h)). Not the integral over the prior that the core takes.
 */
function aboveAndBelow(h: Exact, k: Exact, alpha: Exact): Exact {
  const density = (angle: Exact) => {
    const apart = h.minus(k).pow(2).dividedBy(angle.sin().pow(2).times(2));
    const together = h.times(k).dividedBy(angle.dividedBy(2).cos().pow(2).times(2));
    return apart.plus(together).negated().exp();
  };
  const overlap = quadrature(density, exact(0), alpha).dividedBy(Decimal.acos(-1).times(2));
  return overlap.plus(Decimal.max(0, probability(k).minus(probability(h))));
}

/** ∫ over an angle, split at 0, where cos^(ν−1) peaks. */
function overAngle(f: (angle: Exact) => Exact, from: Exact, to: Exact): Exact {
  if (from.isNegative() === to.isNegative()) return quadrature(f, from, to);
  return quadrature(f, from, exact(0)).plus(quadrature(f, exact(0), to));
}

/** The same with a Student error of whole degrees of freedom, by the law of the error instead of that of the prior: t = √ν·tan θ has the density K·cos^(ν−1)θ in θ. */
function withStudentError(h: Exact, k: Exact, width: Exact, freedom: number): { consumer: Exact; producer: Exact } {
  const root = exact(freedom).sqrt();
  const turn = k.minus(h).dividedBy(width).dividedBy(root).atan();
  const quarter = Decimal.acos(0);
  const law = (angle: Exact) => angle.cos().pow(freedom - 1);
  const whole = overAngle(law, quarter.negated(), quarter);
  const below = probability(h);
  const between = (angle: Exact) => probability(k.minus(width.times(root).times(angle.tan()))).minus(below);
  const over = (from: Exact, to: Exact) =>
    overAngle((angle) => law(angle).times(between(angle)), from, to).dividedBy(whole);
  return { consumer: over(quarter.negated(), turn), producer: over(turn, quarter).negated() };
}

/** Probability that the limit is met, by Bayes' theorem on the normal prior. */
function posterior(offset: Exact, edge: Exact, width: Exact, dof: Freedom): Exact {
  if (dof === "infinite") {
    const shrunk = offset.dividedBy(width.pow(2).plus(1));
    const deviation = width.dividedBy(width.pow(2).plus(1).sqrt());
    return probability(edge.minus(shrunk).dividedBy(deviation));
  }
  const root = exact(Math.floor(dof)).sqrt();
  const quarter = Decimal.acos(0);
  const product = (angle: Exact) => {
    const x = offset.plus(width.times(root).times(angle.tan()));
    return angle
      .cos()
      .pow(Math.floor(dof) - 1)
      .times(x.pow(2).dividedBy(-2).exp());
  };
  const turn = edge.minus(offset).dividedBy(width).dividedBy(root).atan();
  const met = overAngle(product, quarter.negated(), turn);
  return met.dividedBy(met.plus(overAngle(product, turn, quarter)));
}

/**
 * Risks of a decision on ln y, prior lognormal with the mean and deviation given: σ² = ln(1 + (s/m)²), μ = ln m − σ²/2; acceptance limit T·exp(∓t·u/y). JCGM 106:2012 7 to 9.
 */
export function risks(given: Case) {
  const [y, u, T] = [exact(given.result), exact(given.standard_uncertainty), exact(given.target)];
  const [m, s] = [exact(given.prior_mean), exact(given.prior_deviation)];
  const variance = s.dividedBy(m).pow(2).plus(1).ln();
  const [mean, deviation] = [m.ln().minus(variance.dividedBy(2)), variance.sqrt()];
  const relative = u.dividedBy(y);
  const expanded = coverageFactor(given.dof).times(relative);
  const guard = { plain: exact(0), "guarded acceptance": expanded.negated(), "guarded rejection": expanded }[
    given.rule
  ];
  if (guard === undefined) throw new Error(`no rule ${given.rule}`);
  const scaled = (value: Exact) => value.ln().minus(mean).dividedBy(deviation);
  const width = relative.dividedBy(deviation);
  const h = scaled(T);
  const k = h.plus(guard.dividedBy(deviation));
  const inSum = k.dividedBy(width.pow(2).plus(1).sqrt());
  const ofRule =
    given.dof === "infinite"
      ? {
          consumer: aboveAndBelow(h, inSum, width.atan()),
          producer: aboveAndBelow(h.negated(), inSum.negated(), width.atan()),
        }
      : withStudentError(h, k, width, Math.floor(given.dof));
  return {
    ...given,
    acceptance_limit: rounded(T.times(guard.exp())),
    p_c: rounded(probabilityBelow(T.dividedBy(y).ln().dividedBy(relative), given.dof)),
    p_c_prior: rounded(posterior(scaled(y), h, width, given.dof)),
    p_prior: rounded(probability(h)),
    R_C: rounded(ofRule.consumer),
    R_P: rounded(ofRule.producer),
  };
}
