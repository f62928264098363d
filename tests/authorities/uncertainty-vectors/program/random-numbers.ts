/** Source of uniform and normal numbers for simulations. */
export interface RandomNumbers {
  /** Uniform between 0 and 1, both excluded. */
  readonly uniform: () => number;
  readonly normal: () => number;
}

/** Small fast counter generator sfc32 (Doty-Humphrey, PractRand), another than the one under test; normals by Marsaglia's polar method. */
export function randomNumbers(seed: number): RandomNumbers {
  let [a, b, c, counter] = [0x9e3779b9 ^ seed, 0x243f6a88, seed | 0, 1];
  const integer = (): number => {
    const mixed = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + mixed) | 0;
    return mixed >>> 0;
  };
  for (let warmUp = 0; warmUp < 20; warmUp++) integer();
  const uniform = () => (integer() + 0.5) / 4294967296;
  let kept: number | undefined;
  const normal = (): number => {
    if (kept !== undefined) {
      const value = kept;
      kept = undefined;
      return value;
    }
    for (;;) {
      const [x, y] = [2 * uniform() - 1, 2 * uniform() - 1];
      const square = x * x + y * y;
      if (square >= 1) continue;
      const length = Math.sqrt((-2 * Math.log(square)) / square);
      kept = y * length;
      return x * length;
    }
  };
  return { uniform, normal };
}
