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
 * Probability that χ² with these degrees of freedom is the value or less. Of the two tails of the gamma distribution the smaller one is computed, the other is 1 less it.
 * NIST DLMF 8.7.1 (series) and 8.9.2 (continued fraction, modified Lentz).
 * @param degreesOfFreedom Above 0, not necessarily whole.
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
