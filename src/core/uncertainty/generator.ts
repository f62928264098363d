/** A stream of random numbers that is the same on every machine for a seed. */
export interface RandomStream {
  /** A whole number from 0 to 2³² − 1. */
  readonly integer: () => number;
  /** Between 0 and 1, neither included. */
  readonly uniform: () => number;
  /** Of the standard normal law. */
  readonly normal: () => number;
}

const rotated = (value: number, bits: number) => (value << bits) | (value >>> (32 - bits));

/**
 * xoshiro128**: its state is the first 32 bits of the fractions of the golden ratio, π and e, and the seed; 16 outputs are discarded. Normals by Box and
 * Muller in pairs, cosine first.
 * Source: D. Blackman, S. Vigna, "Scrambled linear pseudorandom number generators", ACM TOMS 47 (2021).
 */
export function randomStream(seed: number): RandomStream {
  let [a, b, c, d] = [0x9e3779b9, 0x243f6a88, 0xb7e15162, seed];
  const integer = () => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotated(d, 11);
    return result;
  };
  for (let skipped = 0; skipped < 16; skipped++) integer();
  const uniform = () => (integer() + 0.5) / 2 ** 32;
  let spare: number | undefined;
  const normal = () => {
    if (spare !== undefined) {
      const value = spare;
      spare = undefined;
      return value;
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { integer, uniform, normal };
}
