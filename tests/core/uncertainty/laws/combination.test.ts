import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  budgetRows,
  combine,
  limitsOf,
  readingResponse,
  rowsOfMean,
  type BudgetRow,
  type Output,
  type ReadingNoise,
} from "../../../../src/core";
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
    expect(limitsOf(3, nothing.expanded)).toEqual({ value: 3, lower: 3, upper: 3 });
  });

  test("limits are multiplied for flows and added for n", () => {
    const one = combine([row(0.1, 1)], 0.95);
    expect(limitsOf(2, one.expanded).upper).toBe(2 * Math.exp(one.expanded));
    expect(limitsOf(2, one.expanded, true).upper).toBe(2 + one.expanded);
  });

  test("a row of both directions is added with its sign before squaring; a row of one is only weighted", () => {
    const of = (symbol: string, sensitivity: number, uncertainty = 1) => ({ ...row(uncertainty, sensitivity), symbol });
    const halves = (...both: BudgetRow[][]) => rowsOfMean(both.map((rows) => ({ rows, weight: 0.5 })));
    const mean = halves([of("zero", 2), of("a", 1)], [of("zero", -2), of("b", 3)]);
    expect(mean.map(({ symbol, sensitivity }) => [symbol, sensitivity])).toEqual([
      ["zero", 0],
      ["a", 0.5],
      ["b", 1.5],
    ]);
    const unlike = halves([of("x", 1, 0.02)], [of("x", 1, 0.04)])[0]!;
    expect(unlike.uncertainty * unlike.sensitivity).toBeCloseTo(0.03, 15);
    // What each run has for itself is independent, though the symbols are alike: 0.03 and 0.04 make 0.05.
    const own = (uncertainty: number) =>
      ({ ...of("scatter_d", 1, uncertainty), ofOneRun: true, degreesOfFreedom: 4 }) as const;
    const runs = rowsOfMean([own(0.06), own(0.08)].map((row) => ({ rows: [row], weight: 0.5 })))[0]!;
    expect(runs.uncertainty * runs.sensitivity).toBeCloseTo(0.05, 15);
    expect(runs.degreesOfFreedom).toBeCloseTo(0.05 ** 4 / (0.03 ** 4 / 4 + 0.04 ** 4 / 4), 12);
  });
});

describe("random errors take their shape from the noise and their size from the scatter", () => {
  const nothing = { shared: [], own: [] };
  const rowsOf = (noise: Partial<ReadingNoise>, output: Output) => {
    const prepared = made("pressurization", { noise });
    const [counted, atNoise] = budgetRows(prepared, nothing, output, "p") as [BudgetRow, BudgetRow];
    return { counted, atNoise, prepared };
  };

  test("flow noise alone is the pooled scatter of the standards, with N − 2 degrees of freedom", () => {
    for (const output of outputs) {
      const { counted, prepared } = rowsOf({ pressure: 0, flow: 0.02 }, output);
      const { fit, points } = prepared;
      const shape = readingResponse(prepared, output).toFlow.reduce((sum, value) => sum + value ** 2, 0);
      expect(counted.uncertainty / (fit.residualDeviation * Math.sqrt(shape))).toBeCloseTo(1, 12);
      expect(counted.degreesOfFreedom).toBe(points.length - 2);
    }
  });

  test("unstated, only the ratio of the two noises counts; it moves n one way and 50 Pa the other", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (factor) => {
        for (const output of outputs) {
          const [one, other] = [
            { pressure: 0.5, flow: 0.005 },
            { pressure: 0.5 * factor, flow: 0.005 * factor },
          ];
          expect(rowsOf(other, output).counted.uncertainty / rowsOf(one, output).counted.uncertainty).toBeCloseTo(1, 9);
        }
      }),
    );
    const [n, at50] = [outputs[3]!, outputs[0]!];
    const [inPascal, inFlow] = [
      { pressure: 1, flow: 1e-6 },
      { pressure: 1e-6, flow: 0.01 },
    ];
    expect(rowsOf(inPascal, n).counted.uncertainty).toBeGreaterThan(1.5 * rowsOf(inFlow, n).counted.uncertainty);
    expect(rowsOf(inPascal, at50).counted.uncertainty).toBeLessThan(rowsOf(inFlow, at50).counted.uncertainty);
  });

  test("χ² is the least that any line attains", () => {
    const noise = { pressure: 0.7, flow: 0.004 };
    const { random, points, fit } = made("pressurization", { noise });
    const about = (exponent: number, level: number) =>
      points.reduce((sum, { pressure, flow }) => {
        const residual = Math.log(flow) - level - exponent * Math.log(pressure);
        return sum + residual ** 2 / (noise.flow ** 2 + ((fit.exponent * noise.pressure) / pressure) ** 2);
      }, 0);
    let least = Infinity;
    for (let step = -40; step <= 40; step++) {
      const exponent = fit.exponent + step * 1e-3;
      for (let shift = -60; shift <= 60; shift++) {
        least = Math.min(least, about(exponent, fit.logCoefficient - step * 3.4e-3 + shift * 2e-4));
      }
    }
    expect(random.chiSquare).toBeLessThanOrEqual(least);
    expect(random.chiSquare / least).toBeGreaterThan(0.995);
    expect(about(fit.exponent, fit.logCoefficient)).toBeGreaterThan(random.chiSquare);
  });

  test("both stated: never smaller than that, and known, unless the scatter contradicts it", () => {
    for (const output of outputs) {
      const calm = rowsOf({ pressure: 2, flow: 0.05, stated: true }, output);
      expect(calm.counted.uncertainty).toBe(calm.atNoise.uncertainty);
      expect(calm.counted.degreesOfFreedom).toBe(Infinity);
      const windy = rowsOf({ pressure: 0.01, flow: 0.001, stated: true }, output);
      expect(windy.counted.uncertainty).toBeGreaterThan(windy.atNoise.uncertainty);
      expect(windy.counted.degreesOfFreedom).toBe(5);
      expect(windy.atNoise.contained).toBe(true);
      // Somewhat larger than stated, as chance has it in every second test: the statement still counts.
      const usual = rowsOf({ pressure: 0.35, flow: 0.0035, stated: true }, output);
      expect(usual.prepared.random.scale).toBeGreaterThan(1);
      expect(usual.counted.degreesOfFreedom).toBe(Infinity);
    }
  });
});
