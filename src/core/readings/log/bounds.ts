/** The lowest and highest of some numbers. Compared by hand: a million rows pass here, and not every host makes Math.max cheap. */
export class Bounds {
  highest = -Infinity;
  lowest = Infinity;

  constructor(...parts: readonly (Bounds | undefined)[]) {
    for (const part of parts) if (part) this.addAll(part);
  }

  static of(values: Float64Array, first: number, last: number): Bounds {
    const bounds = new Bounds();
    for (let index = first; index <= last; index++) bounds.add(values[index]!);
    return bounds;
  }

  add(value: number): void {
    if (value > this.highest) this.highest = value;
    if (value < this.lowest) this.lowest = value;
  }

  addAll({ highest, lowest }: Bounds): void {
    if (highest > this.highest) this.highest = highest;
    if (lowest < this.lowest) this.lowest = lowest;
  }

  /** How far apart the numbers lie. */
  get span(): number {
    return this.highest - this.lowest;
  }

  /** How far apart they would lie with one more. */
  spanWith(value: number): number {
    return (value > this.highest ? value : this.highest) - (value < this.lowest ? value : this.lowest);
  }
}
