// Coefficients of the Stirling series of ln Γ: B(2k) / (2k (2k − 1)). NIST DLMF 5.11.1.
const stirling = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360_360, 1 / 156, -3617 / 122_400];

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

/** The series of Stirling's formula, for z of 10 or more. */
function stirlingRest(z: number): number {
  const inverseSquare = 1 / (z * z);
  let series = 0;
  for (let place = stirling.length - 1; place >= 0; place -= 1) {
    series = series * inverseSquare + (stirling[place] ?? 0);
  }
  return series / z;
}

/** ln Γ(x) for x > 0: the argument raised above 10 by the recurrence, then Stirling's series (DLMF 5.11.1). */
export function logGamma(x: number): number {
  if (Math.abs(x - 1) < 0.2) return logGammaNearOne(x - 1);
  if (Math.abs(x - 2) < 0.2) return logGammaNearOne(x - 2) + Math.log1p(x - 2);
  let product = 1;
  let z = x;
  while (z < 10) {
    product *= z;
    z += 1;
  }
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + stirlingRest(z) - Math.log(product);
}

/** ln(Γ(a) Γ(b) / Γ(a + b)) with the large terms of Stirling's formula cancelled before they are added. */
function logBeta(a: number, b: number): number {
  const large = Math.max(a, b);
  const small = Math.min(a, b);
  if (large < 10) return logGamma(a) + logGamma(b) - logGamma(a + b);
  const ratio = -(large - 0.5) * Math.log1p(small / large) - small * Math.log(large + small) + small;
  return logGamma(small) + ratio + stirlingRest(large) - stirlingRest(large + small);
}

const most = 100_000;

/** The regularised lower incomplete gamma function P(a, x): series or continued fraction (DLMF 8.11.4, 8.9.2). */
function lowerGamma(a: number, x: number): number {
  if (x <= 0) return 0;
  return x < a + 1 ? sumGammaSeries(a, x) : 1 - evaluateGammaFraction(a, x);
}

/** The regularised upper incomplete gamma function Q(a, x) = 1 − P(a, x). */
function upperGamma(a: number, x: number): number {
  if (x <= 0) return 1;
  return x < a + 1 ? 1 - sumGammaSeries(a, x) : evaluateGammaFraction(a, x);
}

function sumGammaSeries(a: number, x: number): number {
  let term = 1 / a;
  let total = term;
  for (let n = 1; n < most && Math.abs(term) > total * 1e-17; n += 1) {
    term *= x / (a + n);
    total += term;
  }
  return total * Math.exp(-x + a * Math.log(x) - logGamma(a));
}

function evaluateGammaFraction(a: number, x: number): number {
  const tiny = 1e-300;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < most; n += 1) {
    const factor = -n * (n - a);
    b += 2;
    d = 1 / (factor * d + b || tiny);
    c = b + factor / c || tiny;
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return Math.exp(-x + a * Math.log(x) - logGamma(a)) * fraction;
}

/** The regularised incomplete beta function I_x(a, b), given x and 1 − x: continued fraction by Lentz (DLMF 8.17.22). */
function incompleteBeta(a: number, b: number, x: number, complement = 1 - x): number {
  if (x <= 0) return 0;
  if (complement <= 0) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(b, a, complement, x);
  const front = Math.exp(a * logarithm(x, complement) + b * logarithm(complement, x) - logBeta(a, b)) / a;
  return front * evaluateBetaFraction(a, b, x);
}

/** ln x, from 1 − x where that keeps more digits. */
const logarithm = (x: number, complement: number): number => (complement < 0.5 ? Math.log1p(-complement) : Math.log(x));

function evaluateBetaFraction(a: number, b: number, x: number): number {
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1) || tiny);
  let fraction = d;
  for (let m = 1; m < most; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d || tiny);
    c = 1 + even / c || tiny;
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d || tiny);
    c = 1 + odd / c || tiny;
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-16) break;
  }
  return fraction;
}

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
export function findNormalQuantile(p: number): number {
  if (p === 0.5) return 0;
  if (p > 0.5) return -findNormalQuantileOfTail(1 - p);
  return findNormalQuantileOfTail(p);
}

function findNormalQuantileOfTail(p: number): number {
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

/** The density of Student's t. */
export function studentDensity(t: number, freedom: number): number {
  return (
    Math.exp(-((freedom + 1) / 2) * Math.log1p((t * t) / freedom) - logBeta(freedom / 2, 0.5)) / Math.sqrt(freedom)
  );
}

/** The probability beyond t on one side, for t ≥ 0 (DLMF 8.17.5 with x = ν / (ν + t²)). */
export function studentTail(t: number, freedom: number): number {
  const square = t * t;
  return 0.5 * incompleteBeta(freedom / 2, 0.5, freedom / (freedom + square), square / (freedom + square));
}

/**
 * The t with a given one-sided tail probability, for 0 < tail ≤ 0.5.
 * Newton steps on the logarithms of tail and t, bounded in length, from the quantile for one degree of freedom.
 */
export function findStudentQuantile(tail: number, freedom: number): number {
  if (tail >= 0.5) return 0;
  let t = 1 / Math.tan(Math.PI * tail);
  for (let turn = 0; turn < 200; turn += 1) {
    const reached = studentTail(t, freedom);
    if (reached === 0) {
      t /= 4;
      continue;
    }
    const step = ((Math.log(reached) - Math.log(tail)) * reached) / (studentDensity(t, freedom) * t);
    t *= Math.exp(Math.max(-2, Math.min(2, step)));
    if (Math.abs(step) < 1e-15) break;
  }
  return t;
}
