import { lowerGamma, upperGamma } from "./gamma";

/** Beyond this square of x, erfc is smaller than the least normal number and erf is 1. */
const largestSquare = 708;

/** The error function, by the incomplete gamma function (DLMF 7.11.1). */
export function erf(x: number): number {
  if (x * x > largestSquare) return Math.sign(x);
  return x < 0 ? -lowerGamma(0.5, x * x) : lowerGamma(0.5, x * x);
}

/** The complementary error function, without cancellation for large x. */
export function erfc(x: number): number {
  if (x * x > largestSquare) return x < 0 ? 2 : 0;
  return x < 0 ? 1 + lowerGamma(0.5, x * x) : upperGamma(0.5, x * x);
}

export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** The standard normal distribution function. */
export const normalCumulative = (z: number): number => 0.5 * erfc(-z / Math.SQRT2);

/**
 * The quantile of the standard normal distribution for 0 < p < 1: a rough start in the tail, then Newton steps on the logarithm
 * of the tail, which is concave, so that they cannot overshoot for long.
 */
export function normalQuantile(p: number): number {
  if (p === 0.5) return 0;
  if (p > 0.5) return -normalQuantileOfTail(1 - p);
  return normalQuantileOfTail(p);
}

function normalQuantileOfTail(p: number): number {
  let z = -Math.sqrt(-2 * Math.log(p));
  if (p > 0.02) z = Math.sqrt(2 * Math.PI) * (p - 0.5);
  for (let turn = 0; turn < 60; turn += 1) {
    const tail = normalCumulative(z);
    const step = (Math.log(tail) - Math.log(p)) * (tail / normalDensity(z));
    z -= step;
    if (Math.abs(step) <= 1e-15 * Math.abs(z)) break;
  }
  return z;
}
