import { ensure } from "../errors";
import { normalQuantile } from "./normal";

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

/**
 * Lower and upper tail of the gamma distribution of shape a at x, and its density; the smaller tail is computed, the other is 1 less it.
 * NIST DLMF 8.7.1 (series) and 8.9.2 (continued fraction, modified Lentz).
 */
function gammaTails(a: number, x: number): { lower: number; upper: number; density: number } {
  const density = Math.exp(a * Math.log(x) - x - logGamma(a)) / x;
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let step = 1; term > 1e-17 * sum; step++) sum += term *= x / (a + step);
    const lower = sum * density * x;
    return { lower, upper: 1 - lower, density };
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
  const upper = fraction * density * x;
  return { lower: 1 - upper, upper, density };
}

/** Probability that χ² with these degrees of freedom is the value or less. */
export function chiSquareProbability(value: number, degreesOfFreedom: number): number {
  return value > 0 ? gammaTails(degreesOfFreedom / 2, value / 2).lower : 0;
}

/**
 * Point that χ² stays below with a probability; right to 1e-12 relative. Newton steps within a bracket, from the approximation of E. B. Wilson and
 * M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684.
 * @param probability Above 0, below 1; normalQuantile refuses any other.
 * @param degreesOfFreedom Above 0 up to 100 000, not necessarily whole.
 */
export function chiSquarePoint(probability: number, degreesOfFreedom: number): number {
  ensure(degreesOfFreedom > 0 && degreesOfFreedom <= 1e5, "degrees of freedom", "must be above 0, at most 100 000");
  const a = degreesOfFreedom / 2;
  const ninth = 2 / (9 * degreesOfFreedom);
  const guess = a * (1 - ninth - normalQuantile(probability) * Math.sqrt(ninth)) ** 3;
  let [low, high, x] = [0, Infinity, guess > 1e-3 * a ? guess : 1e-3 * a];
  for (let step = 0; step < 200; step++) {
    const { lower, upper, density } = gammaTails(a, x);
    const miss = probability < 0.5 ? lower - probability : 1 - probability - upper;
    if (miss > 0) high = x;
    else low = x;
    let next = x - miss / density;
    if (!(next > low && next < high)) next = high === Infinity ? 2 * x : (low + high) / 2;
    const settledNow = Math.abs(next - x) < 1e-15 * x;
    x = next;
    if (settledNow) break;
  }
  return 2 * x;
}
