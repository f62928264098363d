import { describe, expect, test } from "vitest";
import { ordinaryFit } from "./support/leakage";
import { expectAgreement } from "./support/compare";
import source from "./wilkinson/data.json";

/** The textbook formula with sums of raw squares and products, for which the trap is set. */
function uncentredSlope(x: readonly number[], y: readonly number[]): number {
  const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
  const products = total(x.map((value, index) => value * (y[index] ?? NaN)));
  const squares = total(x.map((value) => value * value));
  return (x.length * products - total(x) * total(y)) / (x.length * squares - total(x) ** 2);
}

describe("Wilkinson's statistics quiz, column BIG: small differences on a large common part", () => {
  test("X regressed on BIG by uncentred sums gives 1.40625 instead of 1", () => {
    expect(uncentredSlope(source.big, source.x)).toBe(source.slope_from_uncentred_sums);
  });

  // The core sees logarithms, and e^709 is the largest double: BIG is brought to 600 and the steps of X with it.
  const scale = 600 / 99999990;
  const bigPressures = source.big.map((value) => Math.exp(value * scale));
  const stepFlows = source.x.map((value) => Math.exp(value * scale));
  const fit = ordinaryFit(bigPressures, stepFlows);
  const spacing = "logarithms near 600 are 1.1e-13 apart, and their whole spread is 4.8e-5";

  test("slope of X on BIG is 1", () => {
    expectAgreement(fit.exponent, source.slope_of_x_on_big, 1e-8, spacing);
  });

  test("slope of BIG on BIG is 1, and r² is 1", () => {
    const itself = ordinaryFit(bigPressures, bigPressures);
    expectAgreement(itself.exponent, 1, 1e-15, "the same numbers on both axes");
    expectAgreement(itself.determination, 1, 1e-15, "the same numbers on both axes");
  });

  test("the scaled column is still a trap: uncentred sums of its logarithms are off by more than 1 %", () => {
    const slope = uncentredSlope(bigPressures.map(Math.log), stepFlows.map(Math.log));
    expect(Math.abs(slope - 1) > 0.01).toBe(true);
  });
});
