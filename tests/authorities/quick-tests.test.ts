import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { leakageFlow, onePointFlow, studentT, twoPointFlow, twoStations } from "../../src/core";
import { expectAgreement, expectPrinted } from "./support/compare";
import { readings } from "./support/leakage";

// No publication with worked figures was at hand: the checks are the standards' formulas written out, and laws.
describe("one point, exponent 0.65 (ANSI/RESNET/ICC 380 and ASTM E1827, from memory)", () => {
  test("1 000 at 40 Pa: 1 000·(50/40)^0.65 and 0.057·ln(50/40)", () => {
    const result = onePointFlow(1000, -40);
    expectPrinted(result.flow, 1156.1, 1);
    expectAgreement(result.flow, 1000 * 1.25 ** 0.65, 1e-14, "the formula");
    expectAgreement(result.standardUncertainty, result.flow * 0.057 * Math.log(1.25), 1e-13, "the formula");
    expectAgreement(Math.log(result.upper / result.flow), 1.959963984540054 * 0.057 * Math.log(1.25), 1e-12, "1.96·u");
    expectAgreement(result.upper / result.flow, result.flow / result.lower, 1e-14, "limits of a logarithm");
  });

  test("at the pressure read, the exponent does not matter, nor is there an uncertainty of it", () => {
    const result = onePointFlow(1000, -52, { baseline: -2 });
    expect(result).toMatchObject({
      flow: 1000,
      standardUncertainty: 0,
      lower: 1000,
      upper: 1000,
      inducedPressure: -50,
    });
  });

  test("the limits hold the population: 0.65 ± 1.96·0.057 gives them exactly", () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 100 }), fc.integer({ min: 4, max: 100 }), (pressure, at) => {
        const { lower, upper } = onePointFlow(700, pressure, { at });
        const ends = [-1, 1].map((sign) => 700 * (at / pressure) ** (0.65 + sign * 1.959963984540054 * 0.057));
        expectAgreement(lower, Math.min(...ends), 1e-12, "the same power");
        expectAgreement(upper, Math.max(...ends), 1e-12, "the same power");
      }),
    );
  });

  test("there and back: from Δp to p and from p to Δp is the same flow", () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 100 }), fc.integer({ min: 50, max: 100 }), (pressure, hundredths) => {
        const exponent = hundredths / 100;
        const there = onePointFlow(300, pressure, { exponent });
        const back = onePointFlow(there.flow, 50, { exponent, at: pressure });
        expectAgreement(back.flow, 300, 1e-13, "two powers");
      }),
    );
  });
});

describe("two points (ASTM E1827, from memory)", () => {
  test("n = ln(q1/q2)/ln(Δp1/Δp2): 400 at 50 Pa and 160 at 12.5 Pa is ln 2.5/ln 4", () => {
    const result = twoPointFlow(readings([50], [400]), readings([12.5], [160]));
    expect(result.exponent).toBeCloseTo(Math.log(2.5) / Math.log(4), 14);
    expect(result).toMatchObject({ flow: 400, high: { count: 1 }, low: { count: 1 } });
    expect(result.standardUncertainty).toBeUndefined();
  });

  test("repeats at exactly 50 and 12.5 Pa by hand: the flow's limits are those of the mean of five logarithms", () => {
    const flows = [505, 509, 507, 503, 508];
    const high = readings([50, 50, 50, 50, 50], flows);
    const low = readings([12.5, 12.5, 12.5, 12.5, 12.5], [206, 204, 208, 207, 205]);
    const { flow, degreesOfFreedom, exponentUncertainty } = twoPointFlow(high, low);
    const logs = (values: number[]) => values.map(Math.log);
    const error = (values: number[]) => {
      const middle = values.reduce((a, b) => a + b) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / 4 / 5);
    };
    const [eHigh, eLow] = [error(logs(flows)), error(logs([206, 204, 208, 207, 205]))];
    expect(degreesOfFreedom).toBe(4);
    expect(flow).toMatchObject({ value: 506.4 });
    const upper = 506.4 * Math.exp(studentT(0.95, 4) * eHigh);
    expectAgreement((flow as { upper: number }).upper, upper, 1e-12, "hand arithmetic");
    expectAgreement(exponentUncertainty!, Math.hypot(eHigh, eLow) / Math.log(4), 1e-12, "hand arithmetic");
  });

  test("readings on one curve give the curve at every pressure, without scatter", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 500 }),
        fc.integer({ min: 50, max: 100 }),
        fc.constantFrom(4, 10, 25, 50, 75),
        (coefficient, hundredths, at) => {
          const n = hundredths / 100;
          const on = (pressures: number[]) =>
            readings(
              pressures,
              pressures.map((p) => leakageFlow(coefficient, n, p)),
            );
          const [high, low] = twoStations(on([12.5, 50, 12.5, 50, 12.5, 50]));
          const result = twoPointFlow(high, low, at);
          expect([high.length, low.length]).toEqual([3, 3]);
          expectAgreement((result.flow as { value: number }).value, coefficient * at ** n, 1e-12, "powers");
          expectAgreement((result.exponent as { value: number }).value, n, 1e-12, "logarithms");
          expect(result.standardUncertainty!).toBeLessThan(1e-9 * coefficient * at ** n);
        },
      ),
    );
  });

  test("where the pressure wanders along the curve between repeats, that is no scatter", () => {
    const on = (pressures: number[]) =>
      readings(
        pressures,
        pressures.map((p) => 40 * p ** 0.65),
      );
    const { standardUncertainty } = twoPointFlow(on([48, 50, 52]), on([12, 12.5, 13]));
    expect(standardUncertainty!).toBeLessThan(0.3);
    const flat = readings(
      [50, 50, 50],
      [48, 50, 52].map((p) => 40 * p ** 0.65),
    );
    expect(twoPointFlow(flat, on([12, 12.5, 13])).standardUncertainty!).toBeGreaterThan(5);
  });

  test("one pressure, or two that run into each other, are refused", () => {
    const groups = (pressures: number[]) =>
      twoPointFlow(
        ...twoStations(
          readings(
            pressures,
            pressures.map((p) => 9 * p),
          ),
        ),
      );
    expect(() => groups([50, 51, 49])).toThrow(expect.objectContaining({ code: "pressuresNotApart" }));
    expect(() => groups([60, 50, 42, 35, 29, 24])).toThrow(expect.objectContaining({ code: "pressuresNotApart" }));
    expect(() => groups([50])).toThrow(expect.objectContaining({ kind: "missing", term: "pressures" }));
    expect(() => twoPointFlow(readings([50], [100]), readings([12.5], [120]))).toThrow(
      expect.objectContaining({ term: "flows" }),
    );
  });
});
