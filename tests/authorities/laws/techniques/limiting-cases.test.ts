import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitLeakage, flowWithLimits, influences } from "../../../../src/core";
import type { LeakageFit } from "../../../../src/core";
import { expectAgreement } from "../../support/compare";
import { ordinaryFit, uncertainReadings } from "../../support/leakage";
import { ROUNDING, tests, fit } from "./draws";

function expectSameLine(actual: LeakageFit, expected: LeakageFit, tolerance: number): void {
  expectAgreement(actual.exponent, expected.exponent, tolerance, ROUNDING);
  expectAgreement(actual.coefficient, expected.coefficient, 10 * tolerance, ROUNDING);
}

function expectSameErrors(actual: LeakageFit, expected: LeakageFit, tolerance: number): void {
  for (const name of ["standardErrorOfExponent", "standardErrorOfLogCoefficient"] as const) {
    expectAgreement(actual[name] / actual.enlargement, expected[name] / expected.enlargement, tolerance, ROUNDING);
  }
}

describe("limiting cases", () => {
  test("equal relative uncertainties of the flows: the ordinary line; enlarged, its standard errors too", () => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const ordinary = ordinaryFit(drawn.pressures, drawn.flows);
        const weighted = fit(drawn, "weighted", { flow: drawn.flows.map((flow) => flow * 1e-6) });
        expectSameLine(weighted, ordinary, 1e-12);
        if (weighted.enlargement === 1) return;
        expectAgreement(weighted.standardErrorOfExponent, ordinary.standardErrorOfExponent, 1e-9, ROUNDING);
        expect(weighted.degreesOfFreedom).toBe(ordinary.degreesOfFreedom);
        const [a, b] = [flowWithLimits(weighted, 4, 0.95), flowWithLimits(ordinary, 4, 0.95)];
        expectAgreement(a.upper, b.upper, 1e-9, ROUNDING);
      }),
    );
  });

  test("no errors of the pressures: weighted least squares, by all techniques with both errors but organic correlation", () => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const { flow, pressures } = drawn;
        const weighted = fit(drawn, "weighted", { flow });
        for (const technique of ["weighted", "errors in both"] as const) {
          const both = fit(drawn, technique, { flow, pressure: pressures.map(() => 0) });
          expectSameLine(both, weighted, 1e-12);
          expectSameErrors(both, weighted, 1e-12);
          expectAgreement(both.chiSquare ?? NaN, weighted.chiSquare ?? NaN, 1e-9, ROUNDING);
        }
      }),
    );
  });

  test("no errors of the flows: errors in both is the weighted line of ln Δp on ln q, turned over", () => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const { pressures, flows, pressure } = drawn;
        const both = fit(drawn, "errors in both", { pressure, flow: flows.map(() => 0) });
        const turned = fitLeakage(uncertainReadings(flows, pressures, { flow: pressure }), "weighted");
        expectAgreement(
          both.exponent,
          1 / turned.exponent,
          1e-11,
          "the iteration stops when n moves by 1e-13 of itself",
        );
      }),
    );
  });

  test("equal uncertainties of everything: the plain line of organic correlation", () => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const errors = { pressure: drawn.pressures.map((p) => 0.01 * p), flow: drawn.flows.map((q) => 0.02 * q) };
        expectSameLine(fit(drawn, "weighted organic correlation", errors), fit(drawn, "organic correlation"), 1e-12);
      }),
    );
  });

  test("equal flows: weighting by q² changes nothing", () => {
    const pressures = [50, 40, 30, 20];
    const flows = pressures.map(() => 200);
    const weighted = fitLeakage(uncertainReadings(pressures, flows, {}), "weighted");
    expect(weighted.exponent).toBe(0);
    expect(weighted.coefficient).toBeCloseTo(200, 10);
  });

  test("weights by q² are those of a constant absolute uncertainty of the flow, once enlarged", () => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const relative = fit(drawn, "weighted");
        const absolute = fit(drawn, "weighted", { flow: drawn.flows.map(() => 1e-6) });
        expectSameLine(relative, absolute, 1e-12);
        if (absolute.enlargement === 1) return;
        expectAgreement(absolute.standardErrorOfExponent, relative.standardErrorOfExponent, 1e-9, ROUNDING);
      }),
    );
  });
});

test("equal weights: leverage, Cook's distance and the lines without a reading are the ordinary ones", () => {
  fc.assert(
    fc.property(tests, (drawn) => {
      const flow = drawn.flows.map((value) => 0.01 * value);
      const readings = uncertainReadings(drawn.pressures, drawn.flows, { flow });
      const weighted = influences(fitLeakage(readings, "weighted"), readings, 50);
      const ordinary = influences(fitLeakage(readings, "ordinary"), readings, 50);
      const largest = Math.max(...ordinary.map(({ cooksDistance = 0 }) => cooksDistance));
      weighted.forEach((row, index) => {
        const other = ordinary[index];
        expectAgreement(row.leverage, other?.leverage ?? NaN, 1e-12, ROUNDING);
        expectAgreement(row.exponentWithout ?? NaN, other?.exponentWithout ?? NaN, 1e-11, ROUNDING);
        expectAgreement(row.flowWithout ?? NaN, other?.flowWithout ?? NaN, 1e-11, ROUNDING);
        expect(Math.abs((row.cooksDistance ?? NaN) - (other?.cooksDistance ?? NaN))).toBeLessThanOrEqual(
          1e-9 * largest,
        );
      });
    }),
  );
});
