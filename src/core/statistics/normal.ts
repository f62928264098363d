import { ensure } from "../errors";

/** e^(−z²/2) with z² split, so that far out it keeps its digits: the square of a rounded z is exact. */
function bell(z: number): number {
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
  let sum = z;
  for (let odd = 3; Math.abs(term) > 1e-17 * Math.abs(sum); odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return sum;
}

const rootOfTwoPi = Math.sqrt(2 * Math.PI);

/** Probability that a standard normal variable exceeds z; right to 1e-13 relative in both tails. */
export function normalTail(z: number): number {
  if (z < 0) return 1 - normalTail(-z);
  const density = bell(z) / rootOfTwoPi;
  return z < 2 ? 0.5 - density * centralRatio(z) : density * millsRatio(z);
}

/** Probability that a standard normal variable is z or less. */
export function normalProbability(z: number): number {
  return normalTail(-z);
}

/**
 * z that a standard normal variable exceeds with a probability. Newton steps on ln Q, which is concave: from √(−2·ln 2p), never below the root, they come down to
 * it without overshooting.
 * @param tail Above 0, below 1.
 */
export function normalQuantile(tail: number): number {
  ensure(tail > 0 && tail < 1, "probability", "must be above 0 and below 1");
  if (tail > 0.5) return -normalQuantile(1 - tail);
  let z = Math.sqrt(0 - 2 * Math.log(2 * tail));
  for (let step = 0; step < 50 && z > 0; step++) {
    const ratio = z < 2 ? normalTail(z) / (bell(z) / rootOfTwoPi) : millsRatio(z);
    const change = (Math.log((ratio * bell(z)) / rootOfTwoPi) - Math.log(tail)) * ratio;
    z += change;
    if (Math.abs(change) < 1e-15 * z) break;
  }
  return z;
}
