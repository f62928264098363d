import fc from "fast-check";
import { numberOf } from "../../support/sheet";

export const FIXED = { seed: 20261126, numRuns: 60 };

export const ROUNDINGS = "a few roundings of 1e-16, some of them in powers";

export const foot = 0.3048;

export const cfm = foot ** 3 * 60;

export const hundredths = (low: number, high: number) =>
  fc.integer({ min: Math.round(low * 100), max: Math.round(high * 100) }).map((value) => value / 100);

export const numbersOf = (table: unknown[][]) => (table[0] ?? []).map(numberOf);
