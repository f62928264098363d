import type { Exact } from "./decimal";
import { Decimal, exact } from "./decimal";

const PI = Decimal.acos(-1);

function density(z: Exact): Exact {
  return z.pow(2).dividedBy(-2).exp().dividedBy(PI.times(2).sqrt());
}

/**
 * Probability that a standard normal variable is z or less: ½ + φ(z)·(z + z³/3 + z⁵/15 + …), Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.11.
 * Of the fifty digits a tail keeps those that its distance from ½ leaves: 27 at |z| = 10.
 */
export function normalProbability(z: Exact): Exact {
  if (z.abs().greaterThan(10)) throw new Error("too far out for fifty digits");
  let term = z;
  let total = exact(0);
  for (let odd = 3; term.abs().greaterThan("1e-45"); odd += 2) {
    total = total.plus(term);
    term = term.times(z.pow(2)).dividedBy(odd);
  }
  return exact("0.5").plus(density(z).times(total));
}

/** z that a standard normal variable stays below with a probability, by Newton's method. */
export function normalQuantile(probability: Exact): Exact {
  let z = exact(0);
  for (let step = 0; step < 100; step += 1) {
    const change = probability.minus(normalProbability(z)).dividedBy(density(z));
    z = z.plus(change);
    if (change.abs().lessThan("1e-44")) return z;
  }
  throw new Error("the normal quantile did not converge");
}
