const known = new Map<number, number>();

/** P(|T| ≤ √ν·tan θ) for whole ν. Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4. */
function centralProbability(degrees: number, angle: number): number {
  const isOdd = degrees % 2 === 1;
  const cosine = Math.cos(angle);
  let term = isOdd ? cosine : 1;
  let sum = degrees === 1 ? 0 : term;
  for (let power = isOdd ? 3 : 2; power <= degrees - 2; power += 2) {
    term *= (cosine ** 2 * (power - 1)) / power;
    sum += term;
  }
  const finite = Math.sin(angle) * sum;
  return isOdd ? ((angle + finite) * 2) / Math.PI : finite;
}

function bisected(degrees: number): number {
  let [low, high] = [0, Math.PI / 2];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (centralProbability(degrees, middle) < 0.95) low = middle;
    else high = middle;
  }
  return Math.sqrt(degrees) * Math.tan(low);
}

/** Beyond these the sums are long, and t differs from its expansion by less than 1e-8. */
const many = 200;

/** t from the normal quantile: Abramowitz and Stegun 26.7.5, its first terms. */
function expanded(degrees: number): number {
  const z = 1.959963984540054;
  const first = (z ** 3 + z) / 4;
  const second = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const third = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  return z + first / degrees + second / degrees ** 2 + third / degrees ** 3;
}

/** The t that ±t encloses with 95 %, for whole degrees of freedom or infinitely many. */
export function t95(degrees: number): number {
  if (degrees > many) return expanded(degrees);
  const t = known.get(degrees) ?? bisected(degrees);
  known.set(degrees, t);
  return t;
}
