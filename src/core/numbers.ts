import { ensure } from "./errors";

/** Relative slack of every comparison with a limit: the mean of 0.56 and 0.64 is 0.6000000000000001 in binary and must pass 0.6. */
const slack = 1e-9;

/** Equal within the slack; Infinity is equal to itself alone. */
export function equal(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b)) <= slack;
}

/** Less than or equal to a limit, within the slack. The one comparison of the project with a limit. */
export function atMost(value: number, limit: number): boolean {
  return value < limit || equal(value, limit);
}

/** Digits that a double keeps for sure through a few operations; a tie is decided on the decimal form with these. */
const certainDigits = 12;

/**
 * Rounds once to a number of decimals, ties to even, on the decimal form: 0.65 → 0.6 and 0.35 → 0.4, which binary rounding gets wrong.
 * @param value Above 0.
 * Source: ASTM E29, rounding method.
 */
export function roundHalfEven(value: number, decimals: number): number {
  ensure(Number.isInteger(decimals) && decimals >= 0 && decimals <= 10, "decimals", "wholeNumber", {
    lowest: 0,
    highest: 10,
    got: decimals,
  });
  const [digits, power] = value.toExponential(certainDigits - 1).split("e") as [string, string];
  const significand = digits.replace(".", "");
  // The value is 0.d1d2d3… × 10^(power + 1); keep the digits down to the last decimal place.
  const kept = Number(power) + 1 + decimals;
  if (kept >= significand.length) return value;
  if (kept < 0) return 0;
  const head = Number(significand.slice(0, kept));
  const tail = significand.slice(kept);
  const half = "5".padEnd(tail.length, "0");
  const up = tail > half || (tail === half && head % 2 === 1);
  return Number(`${head + (up ? 1 : 0)}e-${decimals}`);
}

/**
 * The smallest of any number of values, Infinity where there are none; Math.min takes no more arguments than the stack holds.
 * Example: smallest([12.5, 50, 25]) → 12.5
 */
export function smallest(values: readonly number[]): number {
  return values.reduce((least, value) => Math.min(least, value), Infinity);
}

/**
 * The largest of any number of values, −Infinity where there are none.
 * Example: largest([12.5, 50, 25]) → 50.0
 */
export function largest(values: readonly number[]): number {
  return -smallest(values.map((value) => -value));
}

/**
 * Arithmetic mean, in the unit of the values, corrected once by the mean of the deviations, so that a large common part (1e15 + 1, 1e15 + 2, …) costs no digits.
 * Source: T. F. Chan, G. H. Golub, R. J. LeVeque, "Algorithms for computing the sample variance", The American Statistician 37 (1983), two-pass form.
 * Example: mean([1, 2, 6]) → 3
 */
export function mean(values: readonly number[]): number {
  const count = values.length;
  let sum = 0;
  for (let index = 0; index < count; index++) sum += values[index]!;
  const first = sum / count;
  let rest = 0;
  for (let index = 0; index < count; index++) rest += values[index]! - first;
  return first + rest / count;
}
