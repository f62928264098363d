import { ensure } from "../errors";

/** Digits that a double keeps for sure through a few operations; a tie is decided on the decimal form with these. */
const certainDigits = 12;

/**
 * Rounds once to a number of decimals, ties to even, on the decimal form: 0.65 → 0.6 and 0.35 → 0.4, which binary rounding gets wrong.
 * @param value Above 0.
 * Source: ASTM E29, rounding method.
 */
export function roundHalfEven(value: number, decimals: number): number {
  ensure(Number.isInteger(decimals) && decimals >= 0 && decimals <= 10, "decimals", "a whole number from 0 to 10");
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
