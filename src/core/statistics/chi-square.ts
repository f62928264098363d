import { ensure } from "../errors";
import { settledOn } from "./newton";

/** ln Γ(x) for x above 0: lifted by its recurrence to where Stirling's series is exact to a unit in the last place. NIST DLMF 5.11.1. */
function logGamma(x: number): number {
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

/** Logarithm of a tail, and the tail over x times the density: by how much ln x moves while that logarithm moves by 1. */
interface Tail {
  readonly logTail: number;
  readonly slope: number;
}

/**
 * Lower and upper tail of the gamma distribution of shape a at x; the smaller one is computed, the other is 1 less it. Logarithms, because far out the tails underflow.
 * NIST DLMF 8.7.1 (series) and 8.9.2 (continued fraction, modified Lentz).
 */
function gammaTails(a: number, x: number): { lower: Tail; upper: Tail } {
  const logDensity = a * Math.log(x) - x - logGamma(a);
  const tail = (slope: number): Tail => ({ logTail: Math.log(slope) + logDensity, slope });
  const other = ({ logTail }: Tail): Tail => ({
    logTail: Math.log1p(-Math.exp(logTail)),
    slope: -Math.expm1(logTail) / Math.exp(logDensity),
  });
  if (x < a + 1) {
    let term = 1 / a;
    let sum = 0;
    for (let step = 1; sum + term !== sum; step++) {
      sum += term;
      term *= x / (a + step);
    }
    const lower = tail(sum);
    return { lower, upper: other(lower) };
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
  const upper = tail(fraction);
  return { lower: other(upper), upper };
}

/** Probability that χ² with these degrees of freedom is the value or less. */
export function chiSquareProbability(value: number, degreesOfFreedom: number): number {
  return value > 0 ? Math.exp(gammaTails(degreesOfFreedom / 2, value / 2).lower.logTail) : 0;
}

/**
 * Point that χ² stays below with a probability; right to 1e-12 relative. Newton steps on the logarithm of the smaller tail over ln x, which is concave: for the
 * lower one they come up from (p·Γ(a + 1))^(1/a), which is never above the root.
 * @param probability Above 0, below 1.
 * @param degreesOfFreedom Above 0 up to 100 000, not necessarily whole.
 */
export function chiSquarePoint(probability: number, degreesOfFreedom: number): number {
  ensure(probability > 0 && probability < 1, "probability", "must be above 0 and below 1");
  ensure(degreesOfFreedom > 0 && degreesOfFreedom <= 1e5, "degrees of freedom", "must be above 0, at most 100 000");
  const a = degreesOfFreedom / 2;
  if (probability >= 0.5) {
    return (
      2 *
      settledOn(a, (x) => {
        const { logTail, slope } = gammaTails(a, x).upper;
        // Up from a flat beginning the first step would go too far.
        return x * Math.exp(Math.min((logTail - Math.log1p(-probability)) * slope, 1));
      })
    );
  }
  const start = Math.exp((Math.log(probability) + logGamma(a + 1)) / a);
  // A point below the smallest number is 0.
  if (start === 0) return 0;
  return (
    2 *
    settledOn(start, (x) => {
      const { logTail, slope } = gammaTails(a, x).lower;
      return x * Math.exp((Math.log(probability) - logTail) * slope);
    })
  );
}
