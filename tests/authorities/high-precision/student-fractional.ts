import type { Exact } from "./decimal";
import { Decimal, exact } from "./decimal";

const PI = Decimal.acos(-1);

/** A power series in x of at most ½, term by term until fifty digits stand. */
function series(x: Exact, ratio: (k: number) => Exact, weight: (k: number) => Exact): Exact {
  let [power, total] = [exact(1), exact(0)];
  for (let k = 0; k < 300; k += 1) {
    total = total.plus(power.times(weight(k)));
    power = power.times(ratio(k)).times(x);
    if (power.abs().lessThan("1e-55")) return total;
  }
  throw new Error("the series does not end: x is to be ½ at most");
}

/** ∫ cos^(ν−1) from 0 to an angle, with sin² of it ½ at most: binomial series of (1 − u²)^(ν/2 − 1), u the sine. */
function fromMiddle(freedom: Exact, angle: Exact): Exact {
  const b = exact(1).minus(freedom.dividedBy(2));
  const terms = series(
    angle.sin().pow(2),
    (k) => b.plus(k).dividedBy(k + 1),
    (k) => exact(1).dividedBy(2 * k + 1),
  );
  return angle.sin().times(terms);
}

/** ∫ cos^(ν−1) from an angle to π/2, with cos² of it ½ at most: binomial series of (1 − v²)^(−½), v the cosine. */
function fromEnd(freedom: Exact, angle: Exact): Exact {
  const cosine = angle.cos();
  const terms = series(
    cosine.pow(2),
    (k) => exact(0.5 + k).dividedBy(k + 1),
    (k) => exact(1).dividedBy(freedom.plus(2 * k)),
  );
  return cosine.pow(freedom).times(terms);
}

/**
 * The t that ±t encloses with a confidence, for degrees of freedom that need not be whole: P(|T| ≤ √ν·tan θ) is the integral of cos^(ν−1) up to θ over that up to π/2
 * (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.1). Newton's method from below, as for whole degrees of freedom.
 */
export function fractionalQuantile(freedom: Exact, confidence: Exact): Exact {
  const quarter = PI.dividedBy(4);
  const whole = fromMiddle(freedom, quarter).plus(fromEnd(freedom, quarter));
  const probability = (angle: Exact) =>
    angle.lessThan(quarter)
      ? fromMiddle(freedom, angle).dividedBy(whole)
      : exact(1).minus(fromEnd(freedom, angle).dividedBy(whole));
  let angle = confidence.times(whole);
  for (let step = 0; step < 300; step += 1) {
    const slope = angle.cos().pow(freedom.minus(1)).dividedBy(whole);
    const change = confidence.minus(probability(angle)).dividedBy(slope);
    angle = angle.plus(change);
    if (change.abs().lessThan("1e-42")) return freedom.sqrt().times(angle.tan());
  }
  throw new Error("Student's quantile did not converge");
}
