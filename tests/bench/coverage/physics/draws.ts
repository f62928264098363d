import { philox } from "./philox";

/** FNV-1a, 32 bits: a number for a name. */
function hashOf(name: string): number {
  let hash = 0x811c9dc5;
  for (const letter of name) hash = Math.imul(hash ^ letter.codePointAt(0)!, 0x01000193);
  return hash >>> 0;
}

/** The random numbers of one simulated test: the same for a seed, a name and the test's number, in whatever order tests are made. */
export class Draws {
  private readonly key: readonly [number, number];
  private block = 0;
  private waiting: number[] = [];
  private spare: number | undefined;

  constructor(
    seed: number,
    name: string,
    private readonly test: number,
  ) {
    this.key = [seed >>> 0, hashOf(name)];
  }

  /** Even between 0 and 1, both excluded. */
  uniform(): number {
    if (this.waiting.length === 0) this.waiting = philox([this.block++, this.test, 0, 0], this.key);
    return (this.waiting.pop()! + 0.5) / 2 ** 32;
  }

  /** Normal, by Box and Muller. */
  normal(deviation = 1): number {
    const kept = this.spare;
    if (kept !== undefined) {
      this.spare = undefined;
      return deviation * kept;
    }
    const radius = Math.sqrt(-2 * Math.log(this.uniform()));
    const angle = 2 * Math.PI * this.uniform();
    this.spare = radius * Math.sin(angle);
    return deviation * radius * Math.cos(angle);
  }

  /** Even between −halfWidth and halfWidth. */
  rectangular(halfWidth: number): number {
    return halfWidth * (2 * this.uniform() - 1);
  }

  /** Normal, drawn anew until it lies within the limits. */
  truncatedNormal(mean: number, deviation: number, lowest: number, highest: number): number {
    for (;;) {
      const value = mean + this.normal(deviation);
      if (value >= lowest && value <= highest) return value;
    }
  }
}
