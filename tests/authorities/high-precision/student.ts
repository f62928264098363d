import type { Exact } from "./decimal";
import { Decimal, exact } from "./decimal";

const PI = Decimal.acos(-1);

/**
 * Probability that |t| stays below √ν·tan θ, for whole ν: the finite sums of Abramowitz and Stegun, Handbook of
 * Mathematical Functions, 26.7.3 (odd) and 26.7.4 (even).
 */
function centralProbability(degreesOfFreedom: number, angle: Exact): Exact {
  const odd = degreesOfFreedom % 2 === 1;
  const cosine = angle.cos();
  const sine = angle.sin();
  const squared = cosine.times(cosine);
  if (degreesOfFreedom === 1) return angle.times(2).dividedBy(PI);
  let term = odd ? cosine : exact(1);
  let total = term;
  for (let k = odd ? 3 : 2; k <= degreesOfFreedom - 2; k += 2) {
    term = term
      .times(squared)
      .times(k - 1)
      .dividedBy(k);
    total = total.plus(term);
  }
  const finite = sine.times(total);
  return odd ? angle.plus(finite).times(2).dividedBy(PI) : finite;
}

/** The constant K of d(probability)/dθ = K·cos^(ν−1) θ, from K₁ = 2/π and K₂ = 1 by K(ν+2) = K(ν)·(ν+1)/ν. */
function slopeConstant(degreesOfFreedom: number): Exact {
  const odd = degreesOfFreedom % 2 === 1;
  let constant = odd ? exact(2).dividedBy(PI) : exact(1);
  for (let v = odd ? 1 : 2; v < degreesOfFreedom; v += 2) constant = constant.times(v + 1).dividedBy(v);
  return constant;
}

/** Two-sided probability of Student's distribution: P(|T| ≤ t). */
export function studentProbability(degreesOfFreedom: number, t: Exact): Exact {
  return centralProbability(degreesOfFreedom, t.dividedBy(exact(degreesOfFreedom).sqrt()).atan());
}

const known = new Map<string, Exact>();

/** The t that ±t encloses with a confidence; each is computed once. */
export function studentQuantile(degreesOfFreedom: number, confidence: Exact): Exact {
  const key = `${degreesOfFreedom} ${confidence.toString()}`;
  const quantile = known.get(key) ?? computeQuantile(degreesOfFreedom, confidence);
  known.set(key, quantile);
  return quantile;
}

/**
 * The t that leaves half of (1 − confidence) on each side. Newton's method from below: the probability is concave in θ,
 * so every step stays on the same side and the last one is exact to the working precision.
 */
function computeQuantile(degreesOfFreedom: number, confidence: Exact): Exact {
  if (!(degreesOfFreedom >= 1) || degreesOfFreedom % 1 !== 0) throw new Error("whole degrees of freedom only");
  const constant = slopeConstant(degreesOfFreedom);
  let angle = confidence.dividedBy(constant);
  for (let step = 0; step < 300; step += 1) {
    const slope = constant.times(angle.cos().pow(degreesOfFreedom - 1));
    const change = confidence.minus(centralProbability(degreesOfFreedom, angle)).dividedBy(slope);
    angle = angle.plus(change);
    if (change.abs().lessThan(angle.times("1e-44"))) return exact(degreesOfFreedom).sqrt().times(angle.tan());
  }
  throw new Error("Student's quantile did not converge");
}
