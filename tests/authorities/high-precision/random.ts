/** A small seeded generator (mulberry32), so that every failing case can be named by its seed and repeated. */
export class Random {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** Uniform on [0, 1). */
  unit(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.unit();
  }

  /** Uniform in the logarithm, for magnitudes. */
  magnitude(low: number, high: number): number {
    return Math.exp(this.between(Math.log(low), Math.log(high)));
  }

  whole(low: number, high: number): number {
    return low + Math.floor((high - low + 1) * this.unit());
  }

  pick<T>(values: readonly T[]): T {
    const value = values[this.whole(0, values.length - 1)];
    if (value === undefined) throw new Error("nothing to pick from");
    return value;
  }

  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.unit())) * Math.cos(2 * Math.PI * this.unit());
  }

  list(length: number, make: () => number): number[] {
    return Array.from({ length }, make);
  }
}

/** A number as a tester writes it: rounded to so many decimals. */
export function written(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
