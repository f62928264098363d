import { expect } from "vitest";

/** Relative difference of two numbers; 0 for two zeros, and the absolute difference where nothing else has a meaning. */
export function relativeDifference(actual: number, expected: number): number {
  if (actual === expected) return 0;
  return Math.abs(actual - expected) / (expected === 0 ? 1 : Math.abs(expected));
}

/** Fails unless the number agrees with the expected one to the relative tolerance; the reason for the tolerance is required. */
export function expectAgreement(actual: number, expected: number, tolerance: number, because: string): void {
  const difference = relativeDifference(actual, expected);
  expect(
    difference <= tolerance,
    `${actual} against ${expected}: relative difference ${difference.toExponential(2)}, allowed ${tolerance} because ${because}`,
  ).toBe(true);
}

/** Fails unless the number rounds to what a source printed: half a unit of its last decimal, and nothing more. */
export function expectPrinted(actual: number, printed: number, decimals: number): void {
  const halfUnit = 0.5 * 10 ** -decimals;
  expect(
    Math.abs(actual - printed) <= halfUnit * (1 + 1e-9),
    `${actual} does not round to the printed ${printed} (${decimals} decimals)`,
  ).toBe(true);
}
