import {
  chiSquareProbability,
  gammaRatio,
  logGamma as logGammaAwayFromItsZeros,
  normalProbability,
  normalQuantile,
} from "../../../core/index";

// Only what Excel offers beyond the distributions of the method; those are core's.

// Euler's constant, then ζ(2) … ζ(22) by their sums; used for ln Γ(1 + z) = −γz + Σ ζ(k) (−z)^k / k (DLMF 5.7.3).
const euler = 0.5772156649015329;
const zeta = Array.from({ length: 21 }, (_, place) => {
  const k = place + 2;
  let total = 0;
  for (let n = 60; n >= 1; n -= 1) total += n ** -k;
  // The rest of the sum beyond 60 by Euler and Maclaurin.
  return (
    total +
    60 ** (1 - k) / (k - 1) -
    0.5 * 60 ** -k +
    (k / 12) * 60 ** (-k - 1) -
    ((k * (k + 1) * (k + 2)) / 720) * 60 ** (-k - 3)
  );
});

/** Near 1 and 2 ln Γ is near 0, where only the series in the distance keeps its digits. */
function logGammaNearOne(z: number): number {
  let total = 0;
  for (let place = zeta.length - 1; place >= 0; place -= 1) total = total * -z + (zeta[place] ?? 0) / (place + 2);
  return -euler * z + total * z * z;
}

/** ln Γ(x) for x > 0, with all its digits near 1 and 2 too. */
export function logGamma(x: number): number {
  if (Math.abs(x - 1) < 0.2) return logGammaNearOne(x - 1);
  if (Math.abs(x - 2) < 0.2) return logGammaNearOne(x - 2) + Math.log1p(x - 2);
  return logGammaAwayFromItsZeros(x);
}

/** Beyond this square of x, erfc is smaller than the least normal number and erf is 1. */
const largestSquare = 708;

/** The error function: the square of a normal variable has a χ² distribution. */
export function erf(x: number): number {
  return Math.sign(x) * chiSquareProbability(2 * x * x, 1);
}

/** The complementary error function, without cancellation for large x. */
export function erfc(x: number): number {
  if (x * x > largestSquare) return x < 0 ? 2 : 0;
  return 2 * normalProbability(-x * Math.SQRT2);
}

export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** The z that a standard normal variable keeps below with a probability; near the median, where z is near 0, by Newton steps on Φ − ½, which keeps its digits there. */
export function findNormalQuantile(p: number): number {
  if (Math.abs(p - 0.5) > 0.2) return -normalQuantile(p);
  let z = 0;
  for (let turn = 0; turn < 8; turn += 1) z += (p - 0.5 - erf(z / Math.SQRT2) / 2) / normalDensity(z);
  return z;
}

/** The density of Student's t. */
export function studentDensity(t: number, freedom: number): number {
  const power = Math.exp(-((freedom + 1) / 2) * Math.log1p((t * t) / freedom));
  return (gammaRatio(freedom / 2) / Math.sqrt(freedom * Math.PI)) * power;
}
