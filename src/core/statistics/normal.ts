import { ensure } from "../errors";
import { settledOn } from "./newton";

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
  // A tail of 1 or more comes back as one of 0 or less.
  if (tail > 0.5) return -normalQuantile(1 - tail);
  ensure(tail > 0, "probability", "must be above 0 and below 1");
  return settledOn(Math.sqrt(0 - 2 * Math.log(2 * tail)), (z) => {
    const ratio = z < 2 ? normalTail(z) / (bell(z) / rootOfTwoPi) : millsRatio(z);
    return z + (Math.log(ratio / rootOfTwoPi) - (z * z) / 2 - Math.log(tail)) * ratio;
  });
}
