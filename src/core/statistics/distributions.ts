import { ensure } from "../errors";

/**
 * The value that Newton steps towards a positive root settle on. Steps of less than 2e-14 of it carry only rounding: the functions that are solved are right to 1e-13, and a finer
 * stop is never met for a third of the whole degrees of freedom.
 */
export function settledOn(start: number, next: (value: number) => number): number {
  let value = start;
  for (let count = 0; count < 100; count++) {
    const after = next(value);
    if (Math.abs(after - value) <= 2e-14 * after) return after;
    value = after;
  }
  return value;
}

/** e^(−z²/2) with z² split, so that far out it keeps its digits: the square of a rounded z is exact. From 40 on it is below the smallest number, the split no longer harmless. */
function bell(z: number): number {
  if (z > 40) return 0;
  const rounded = Math.round(z * 16) / 16;
  return Math.exp((-rounded * rounded) / 2) * Math.exp((-(z - rounded) * (z + rounded)) / 2);
}

/** Mills' ratio Q(z)/φ(z) for z of 2 or more, by the continued fraction 1/(z + 1/(z + 2/(z + …))), from the far end. NIST DLMF 7.9.3. */
function millsRatio(z: number): number {
  // At 2 the fraction needs some 100 terms for a unit in the last place, further out fewer.
  let denominator = z;
  for (let term = Math.ceil(40 + 600 / z); term >= 1; term--) denominator = z + term / denominator;
  return 1 / denominator;
}

/** Φ(z) − ½ over φ(z): z + z³/3 + z⁵/15 + …, all terms of one sign. NIST DLMF 7.6.2. */
function centralRatio(z: number): number {
  let term = z;
  let sum = 0;
  for (let odd = 3; sum + term !== sum; odd += 2) {
    sum += term;
    term *= (z * z) / odd;
  }
  return sum;
}

const rootOfTwoPi = Math.sqrt(2 * Math.PI);

/** Probability that a standard normal variable exceeds z; right to 1e-13 relative in both tails. */
function normalTail(z: number): number {
  if (z < 0) return 1 - normalTail(-z);
  const density = bell(z) / rootOfTwoPi;
  return z < 2 ? 0.5 - density * centralRatio(z) : density * millsRatio(z);
}

/**
 * Probability that a standard normal variable is z or less.
 * Example: normalProbability(1.96) → 0.9750
 */
export function normalProbability(z: number): number {
  return normalTail(-z);
}

/**
 * z that a standard normal variable exceeds with a probability. Newton steps on ln Q, which is concave: from √(−2·ln 2p), never below the root, they come down to
 * it without overshooting.
 * @param tail Above 0, below 1.
 * Example: normalQuantile(0.025) → 1.959964
 */
export function normalQuantile(tail: number): number {
  // A tail of 1 or more comes back as one of 0 or less.
  if (tail > 0.5) return -normalQuantile(1 - tail);
  ensure(tail > 0, "probability", "probability");
  return settledOn(Math.sqrt(0 - 2 * Math.log(2 * tail)), (z) => {
    const ratio = z < 2 ? normalTail(z) / (bell(z) / rootOfTwoPi) : millsRatio(z);
    return z + (Math.log(ratio / rootOfTwoPi) - (z * z) / 2 - Math.log(tail)) * ratio;
  });
}

/** Γ(x + ½)/Γ(x): lifted by its recurrence to where its asymptotic series is exact to 1e-17. NIST DLMF 5.11.13 and 5.5.1. */
export function gammaRatio(x: number): number {
  let factor = 1;
  while (x < 32) {
    factor *= x / (x + 0.5);
    x += 1;
  }
  const series = [39325 / 33554432, 869 / 4194304, -399 / 262144, -21 / 32768, 5 / 1024, 1 / 128, -1 / 8, 1];
  return factor * Math.sqrt(x) * series.reduce((sum, term) => sum / x + term, 0);
}

/** Continued fraction of the incomplete beta function by Lentz's method: for the parameters of Student's t neither c nor 1/d comes near 0. NIST DLMF 8.17.22. */
function betaFraction(a: number, b: number, x: number): number {
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1));
  let result = d;
  for (let m = 1; m <= 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    for (const term of [even, odd]) {
      d = 1 / (1 + term * d);
      c = 1 + term / c;
      result *= d * c;
    }
    // One unit in the last place: below it the product only collects rounding.
    if (Math.abs(d * c - 1) < 3e-16) break;
  }
  return result;
}

/**
 * Logarithm of the upper tail of Student's t at t of 0 or more, and the tail over t times the density: by how much ln t falls while that logarithm grows by 1.
 * Logarithms, because far out the tail itself underflows. NIST DLMF 8.17 (incomplete beta with b = ½).
 */
function upperTail(t: number, degreesOfFreedom: number): { logTail: number; slope: number } {
  const a = degreesOfFreedom / 2;
  const square = (t * t) / degreesOfFreedom;
  const x = 1 / (1 + square);
  const complement = square / (1 + square);
  const logPower = -a * Math.log1p(square);
  // t times the density is this times (1 + t²/ν)^(−ν/2).
  const factor = (Math.sqrt(complement) * gammaRatio(a)) / Math.sqrt(Math.PI);
  if (x < (a + 1) / (a + 2.5)) {
    const slope = betaFraction(a, 0.5, x) / degreesOfFreedom;
    return { logTail: Math.log(factor * slope) + logPower, slope };
  }
  const power = Math.exp(logPower);
  const tail = 0.5 - factor * power * betaFraction(0.5, a, complement);
  return { logTail: Math.log(tail), slope: tail / (factor * power) };
}

/** Many degrees of freedom: the continued fraction loses digits in proportion to them, expansions about the normal distribution are right to 1e-13. */
const many = 5000;

/** t from the normal quantile z for many degrees of freedom. Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.5. */
function fromNormal(z: number, degreesOfFreedom: number): number {
  const y = z * z;
  const terms = [
    ((((79 * y + 776) * y + 1482) * y - 1920) * y - 945) / 92160,
    (((3 * y + 19) * y + 17) * y - 15) / 384,
    ((5 * y + 16) * y + 3) / 96,
    (y + 1) / 4,
    1,
  ];
  return z * terms.reduce((sum, term) => sum / degreesOfFreedom + term, 0);
}

/** Normal z with the tail of t for a thousand degrees of freedom or more; right to 1e-13 while t² stays below 0.06 of them. Source: G. W. Hill, Algorithm 395, Comm. ACM 13 (1970) 617. */
function toNormal(t: number, degreesOfFreedom: number): number {
  const a = degreesOfFreedom - 0.5;
  const b = 48 * a * a;
  const y = a * Math.log1p((t * t) / degreesOfFreedom);
  const correction = (((-0.4 * y - 3.3) * y - 24) * y - 85.5) / (0.8 * y * y + 100 + b);
  return ((correction + y + 3) / b + 1) * Math.sqrt(y);
}

/**
 * Probability that Student's t is this value or less; both tails keep their digits.
 * @param degreesOfFreedom 1 or more, not necessarily whole; infinite is the normal distribution.
 * Example: studentProbability(2.306, 8) → 0.9750
 */
export function studentProbability(t: number, degreesOfFreedom: number): number {
  ensure(degreesOfFreedom >= 1, "degrees of freedom", "oneOrMore");
  const tail = (distance: number) => {
    if (degreesOfFreedom === Infinity) return normalTail(distance);
    if (degreesOfFreedom >= 1000 && distance * distance < 0.06 * degreesOfFreedom) {
      return normalTail(toNormal(distance, degreesOfFreedom));
    }
    return distance === Infinity ? 0 : Math.exp(upperTail(distance, degreesOfFreedom).logTail);
  };
  return t < 0 ? tail(-t) : 1 - tail(t);
}

/** Confidence of limits and intervals where none is asked for, as in ISO 9972 annex C. */
export const usualConfidence = 0.95;

/**
 * Quantile of Student's t, two-sided: the t that ±t encloses with this confidence.
 * @param confidence Two-sided confidence, a fraction from 0.5 to below 1 (0.95 gives the 97.5 % quantile).
 * @param degreesOfFreedom 1 or more, not necessarily whole; infinite gives the normal quantile.
 * Example: studentT(0.95, 8) → 2.306
 */
export function studentT(confidence: number, degreesOfFreedom: number): number {
  ensure(confidence >= 0.5 && confidence < 1, "confidence", "confidence");
  ensure(degreesOfFreedom >= 1, "degrees of freedom", "oneOrMore");
  if (latest?.confidence === confidence && latest.degreesOfFreedom === degreesOfFreedom) return latest.t;
  const t = studentQuantile((1 - confidence) / 2, degreesOfFreedom);
  latest = { confidence, degreesOfFreedom, t };
  return t;
}

/** The latest quantile: one test asks for the same one many times. */
let latest: { confidence: number; degreesOfFreedom: number; t: number } | undefined;

/**
 * The t that Student's t exceeds with a probability.
 * Newton steps on ln(tail) over ln t, which is concave, so after the first they come down without overshooting; from the closed form
 * for 2 degrees of freedom. Right to 1e-13 relative (checked at 50 digits in the tests).
 * @param tail Above 0, at most ½.
 * Example: studentQuantile(0.025, 8) → 2.306
 */
export function studentQuantile(tail: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom >= many) return fromNormal(normalQuantile(tail), degreesOfFreedom);
  return settledOn((1 - 2 * tail) / Math.sqrt(2 * tail * (1 - tail)), (t) => {
    const reached = upperTail(t, degreesOfFreedom);
    return t * Math.exp((reached.logTail - Math.log(tail)) * reached.slope);
  });
}

/** ln Γ(x) for x above 0: lifted by its recurrence to where Stirling's series is exact to a unit in the last place. NIST DLMF 5.11.1. */
export function logGamma(x: number): number {
  let product = 1;
  while (x < 16) {
    product *= x;
    x += 1;
  }
  const square = x * x;
  const series = [-691 / 360360, 1 / 1188, -1 / 1680, 1 / 1260, -1 / 360, 1 / 12];
  const correction = series.reduce((sum, term) => sum / square + term, 0) / x;
  return (x - 0.5) * Math.log(x) - x + Math.log(2 * Math.PI) / 2 + correction - Math.log(product);
}

/**
 * Probability that χ² with these degrees of freedom is the value or less. Of the two tails of the gamma distribution the smaller one is computed, the other is 1 less it.
 * NIST DLMF 8.7.1 (series) and 8.9.2 (continued fraction, modified Lentz).
 * @param degreesOfFreedom Above 0, not necessarily whole.
 * Example: chiSquareProbability(9.348, 3) → 0.9750
 */
export function chiSquareProbability(value: number, degreesOfFreedom: number): number {
  if (!(value > 0)) return 0;
  const [a, x] = [degreesOfFreedom / 2, Math.min(value / 2, 1e300)];
  const density = (tail: number) => Math.exp(Math.log(tail) + a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = 0;
    for (let step = 1; sum + term !== sum; step++) {
      sum += term;
      term *= x / (a + step);
    }
    return density(sum);
  }
  let b = x + 1 - a;
  let c = Infinity;
  let d = 1 / b;
  let fraction = d;
  for (let step = 1; step < 100_000; step++) {
    const numerator = -step * (step - a);
    b += 2;
    d = 1 / (numerator * d + b);
    c = b + numerator / c;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 3e-16) break;
  }
  return 1 - density(fraction);
}

/** ±1.96: what encloses 95 % of a standard normal distribution. */
export const normal95 = normalQuantile(0.025);
