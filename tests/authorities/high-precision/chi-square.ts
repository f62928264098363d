import type { Exact } from "./decimal";
import { Decimal, exact } from "./decimal";

const PI = Decimal.acos(-1);

/** Γ(ν/2 + 1) for whole ν, from Γ(1) = 1 or Γ(3/2) = √π/2 by Γ(a + 1) = a·Γ(a). */
function gammaOfHalf(degreesOfFreedom: number): Exact {
  const isOdd = degreesOfFreedom % 2 === 1;
  let gamma = isOdd ? PI.sqrt().dividedBy(2) : exact(1);
  for (let v = isOdd ? 3 : 2; v <= degreesOfFreedom; v += 2) gamma = gamma.times(v).dividedBy(2);
  return gamma;
}

/** Probability that χ² is x or less, for whole ν: the series of the incomplete gamma function, Abramowitz and Stegun, Handbook of Mathematical Functions, 26.4.6. */
export function chiSquareProbability(x: Exact, degreesOfFreedom: number): Exact {
  const half = x.dividedBy(2);
  let term = half.pow(exact(degreesOfFreedom).dividedBy(2)).times(half.negated().exp());
  term = term.dividedBy(gammaOfHalf(degreesOfFreedom));
  let total = exact(0);
  for (let v = degreesOfFreedom + 2; term.greaterThan(total.times("1e-52")); v += 2) {
    total = total.plus(term);
    term = term.times(x).dividedBy(v);
  }
  return total;
}
