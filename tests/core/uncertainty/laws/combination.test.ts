import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { budgetRows, combine, limitsOf, rowsOfMean } from "../../../../src/core";
import { outputs, made } from "./prepared";

describe("combination", () => {
  const row = (uncertainty: number, sensitivity: number, degreesOfFreedom = Infinity) => ({
    symbol: "x",
    uncertainty,
    sensitivity,
    degreesOfFreedom,
  });

  test("the worked example of JCGM 100:2008, H.1.6: u = 32 nm, 16 effective degrees of freedom, U = 93 nm at 99 %", () => {
    const rows = [row(25, 1, 18), row(9.7, 1, 25.6), row(2.9, 1, 50), row(16.6, 1, 2), row(0, 0)];
    const { standardUncertainty, degreesOfFreedom, expanded } = combine(rows, 0.99);
    expect(Math.round(standardUncertainty)).toBe(32);
    expect(degreesOfFreedom).toBe(16);
    expect(Math.round(expanded)).toBe(93);
  });

  test("a contained row does not count; infinite degrees of freedom give the normal quantile", () => {
    const { standardUncertainty, shares, effectiveDegreesOfFreedom, t } = combine(
      [row(3, 1), row(4, -1), { ...row(100, 1), contained: true }],
      0.95,
    );
    expect(standardUncertainty).toBe(5);
    expect(shares.map((share) => Math.round(share * 1e12) / 1e12)).toEqual([0.36, 0.64, 0]);
    expect(effectiveDegreesOfFreedom).toBe(Infinity);
    expect(Math.abs(t - 1.959963984540054)).toBeLessThan(1e-9);
  });

  test("degrees of freedom are truncated, but a whole number is not lost to rounding", () => {
    expect(combine([row(1, 1, 7)], 0.95).degreesOfFreedom).toBe(7);
    expect(combine([row(1, 1, 7.9)], 0.95).degreesOfFreedom).toBe(7);
    expect(combine([row(1, 1, 0.4)], 0.95).degreesOfFreedom).toBe(1);
  });

  test("nothing uncertain is no uncertainty, and limits are the value", () => {
    const nothing = combine([row(0, 1)], 0.95);
    expect(nothing.standardUncertainty).toBe(0);
    expect(nothing.shares).toEqual([0]);
    expect(limitsOf(3, nothing, false)).toEqual({ value: 3, lower: 3, upper: 3 });
  });

  test("limits are multiplied for flows and added for n", () => {
    const one = combine([row(0.1, 1)], 0.95);
    expect(limitsOf(2, one, false).upper).toBe(2 * Math.exp(one.expanded));
    expect(limitsOf(2, one, true).upper).toBe(2 + one.expanded);
  });

  test("a row of both directions is added with its sign before squaring; a row of one is only weighted", () => {
    const of = (symbol: string, sensitivity: number, uncertainty = 1) => ({ ...row(uncertainty, sensitivity), symbol });
    const mean = rowsOfMean([of("zero", 2), of("a", 1)], [of("zero", -2), of("b", 3)], [0.5, 0.5]);
    expect(mean.map(({ symbol, sensitivity }) => [symbol, sensitivity])).toEqual([
      ["zero", 0],
      ["a", 0.5],
      ["b", 1.5],
    ]);
    const unlike = rowsOfMean([of("x", 1, 0.02)], [of("x", 1, 0.04)], [0.5, 0.5])[0]!;
    expect(unlike.uncertainty * unlike.sensitivity).toBeCloseTo(0.03, 15);
  });
});

test("the random part is the larger of scatter and stated, for each result by itself", () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 3, noNaN: true }), (pressure) => {
      for (const output of outputs) {
        const rows = budgetRows(made("pressurization"), [], output, { pressure, fan: 0.001 }, "p");
        const [scatter, stated] = rows;
        const counted = rows.filter(({ contained }) => contained !== true);
        expect(counted).toHaveLength(1);
        expect(counted[0]!.uncertainty).toBe(Math.max(scatter!.uncertainty, stated!.uncertainty));
      }
    }),
  );
});
