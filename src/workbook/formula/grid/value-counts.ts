import type { Scalar } from "../values/value";

/** Numbers that are the same to the 15 digits that Excel compares have one key. */
const keyOfNumber = (value: number): string => value.toPrecision(15);

/** How often each value stands in an area, for the thousand times that COUNTIF asks for one of them. */
export class ValueCounts {
  /** By digits; the numbers themselves, since some may differ beyond them. */
  private readonly numbers = new Map<string, Map<number, number>>();
  private readonly texts = new Map<string, number>();
  /** Texts that look like a number. */
  private readonly likeNumbers = new Map<number, number>();

  /** @param asNumber The number that a text looks like, which counts with it. */
  constructor(private readonly asNumber: (text: string) => number | undefined) {}

  add(value: Scalar): void {
    if (typeof value === "number") this.addNumber(value);
    if (typeof value !== "string") return;
    const lower = value.toLowerCase();
    this.texts.set(lower, (this.texts.get(lower) ?? 0) + 1);
    const number = this.asNumber(value);
    // A text counts only with the very number, and raises no doubt beside another.
    if (number !== undefined) this.likeNumbers.set(number, (this.likeNumbers.get(number) ?? 0) + 1);
  }

  private addNumber(value: number): void {
    const key = keyOfNumber(value);
    const same = this.numbers.get(key) ?? new Map<number, number>();
    this.numbers.set(key, same.set(value, (same.get(value) ?? 0) + 1));
  }

  /** How often a value stands there; "doubtful" where another number shows the same digits. */
  of(wanted: number | string): number | "doubtful" {
    if (typeof wanted === "string") return this.texts.get(wanted.toLowerCase()) ?? 0;
    const same = this.numbers.get(keyOfNumber(wanted));
    if (same && (same.size > 1 || !same.has(wanted))) return "doubtful";
    return (same?.get(wanted) ?? 0) + (this.likeNumbers.get(wanted) ?? 0);
  }

  get size(): number {
    return this.numbers.size + this.texts.size;
  }
}
