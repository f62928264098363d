import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { LeakageFit, LeakageReading, Technique } from "../../src/core";
import { fitLeakage, flowWithLimits, influences, readingSensitivities, techniques } from "../../src/core";
import { expectAgreement } from "./support/compare";
import { ordinaryFit, uncertainReadings, type ReadingErrors } from "./support/leakage";

const ROUNDING = "the same line by another way; some 1e-16 a reading";

/** Readings of a leakage curve with scatter, and errors as a tester states them. */
const tests = fc
  .record({
    pressures: fc.uniqueArray(fc.integer({ min: 80, max: 700 }), { minLength: 4, maxLength: 12 }),
    scatter: fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 12, maxLength: 12 }),
    errors: fc.array(fc.integer({ min: 3, max: 40 }), { minLength: 12, maxLength: 12 }),
    n: fc.integer({ min: 50, max: 100 }),
    coefficient: fc.integer({ min: 5, max: 900 }),
  })
  .map(({ pressures: tenths, scatter, errors, n, coefficient }) => {
    const pressures = tenths.map((value) => value / 10);
    const flows = pressures.map(
      (pressure, index) => coefficient * pressure ** (n / 100) * (1 + (scatter[index] ?? 0) / 2000),
    );
    return {
      pressures,
      flows,
      pressure: pressures.map((_, index) => (errors[index] ?? NaN) / 40),
      flow: flows.map((value, index) => (value * (errors[11 - index] ?? NaN)) / 2000),
    };
  });

type Drawn = typeof tests extends fc.Arbitrary<infer Value> ? Value : never;

function fit({ pressures, flows }: Drawn, technique: Technique, errors: ReadingErrors = {}): LeakageFit {
  return fitLeakage(uncertainReadings(pressures, flows, errors), technique);
}

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

describe("symmetry", () => {
  const both = ["organic correlation", "weighted organic correlation", "errors in both"] as const;

  test.each(both)("%s: pressures and flows may change places", (technique) => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const { pressures, flows, pressure, flow } = drawn;
        const told = technique === "organic correlation" ? {} : { pressure, flow };
        const turned = technique === "organic correlation" ? {} : { pressure: flow, flow: pressure };
        const line = fit(drawn, technique, told);
        const other = fitLeakage(uncertainReadings(flows, pressures, turned), technique);
        expectAgreement(
          line.exponent * other.exponent,
          1,
          1e-11,
          "the iteration stops when n moves by 1e-13 of itself",
        );
        expectAgreement(
          line.logCoefficient,
          -other.logCoefficient / other.exponent,
          1e-10,
          "ln C is a difference of n·x̄ and ȳ",
        );
      }),
    );
  });

  test("the ordinary line has no such symmetry: the comparison is not empty", () => {
    const [pressures, flows] = [
      [60, 45, 30, 15],
      [272, 215, 178, 101],
    ];
    const product = ordinaryFit(pressures, flows).exponent * ordinaryFit(flows, pressures).exponent;
    expect(product).toBeLessThan(0.9999);
  });
});

describe.each(techniques)("units and common errors: %s", (technique) => {
  const told = (drawn: Drawn): ReadingErrors =>
    technique === "ordinary" || technique === "organic correlation"
      ? {}
      : { pressure: drawn.pressure, flow: drawn.flow };

  test("flows and their uncertainties in another unit: n stays, C follows, standard errors stay", () => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const errors = told(drawn);
        const here = fit(drawn, technique, errors);
        const inFeet = (values: readonly number[]) => values.map((value) => value * 0.588577779);
        const there = fit({ ...drawn, flows: inFeet(drawn.flows) }, technique, {
          ...errors,
          ...(errors.flow && { flow: inFeet(errors.flow) }),
        });
        expectAgreement(there.exponent, here.exponent, 1e-11, ROUNDING);
        expectAgreement(there.coefficient, here.coefficient * 0.588577779, 1e-10, ROUNDING);
        expectAgreement(there.standardErrorOfExponent, here.standardErrorOfExponent, 1e-8, ROUNDING);
      }),
    );
  });

  test("sensitivities: Σa = 1, Σb = 0, ΣX = −n, Σ∂n/∂x = 0, since all flows or all pressures may grow alike", () => {
    fc.assert(
      fc.property(tests, (drawn) => {
        const readings = uncertainReadings(drawn.pressures, drawn.flows, told(drawn));
        const line = fitLeakage(readings, technique);
        const rows = readingSensitivities(line, readings)(Math.log(10));
        const sum = (name: keyof (typeof rows)[number]) => rows.reduce((total, row) => total + row[name], 0);
        expect(Math.abs(sum("flowToFlow") - 1)).toBeLessThan(1e-7);
        expect(Math.abs(sum("exponentToFlow"))).toBeLessThan(1e-7);
        expect(Math.abs(sum("flowToPressure") + line.exponent)).toBeLessThan(1e-7);
        expect(Math.abs(sum("exponentToPressure"))).toBeLessThan(1e-7);
      }),
      { numRuns: 30 },
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

describe("what cannot be", () => {
  const readings = (errors: ReadingErrors): LeakageReading[] =>
    uncertainReadings([60, 45, 30, 15], [272, 215, 178, 101], errors);
  const given = { pressure: [0.5, 0.5, 0.5, 0.5], flow: [3, 3, 3, 3] };

  test.each([
    ["weighted", { pressure: given.pressure }, "missing", "flow_uncertainty"],
    ["weighted organic correlation", { flow: given.flow }, "missing", "pressure_uncertainty"],
    ["weighted organic correlation", { pressure: given.pressure }, "missing", "flow_uncertainty"],
    ["weighted organic correlation", {}, "missing", "pressure_uncertainty"],
    ["errors in both", {}, "missing", "pressure_uncertainty"],
    ["errors in both", { pressure: given.pressure }, "missing", "flow_uncertainty"],
    ["weighted", { flow: [3, 3, 0, 3] }, "invalid", "flow_uncertainty"],
    ["weighted", { flow: [3, 3, -1, 3] }, "invalid", "flow_uncertainty"],
    ["weighted", { flow: [3, 3, NaN, 3] }, "invalid", "flow_uncertainty"],
    ["weighted organic correlation", { ...given, pressure: [1, 1, 0, 1] }, "invalid", "pressure_uncertainty"],
    ["errors in both", { pressure: [1, 1, 0, 1], flow: [3, 3, 0, 3] }, "invalid", "flow_uncertainty"],
    ["errors in both", { ...given, correlation: [0, 0, 1, 0] }, "invalid", "flow_uncertainty"],
  ] as const)("%s with %o: %s, %s", (technique, errors, kind, argument) => {
    expect(() => fitLeakage(readings(errors), technique)).toThrow(expect.objectContaining({ kind, argument }));
  });

  test("an uncertainty for some readings only names the first row without", () => {
    const some = readings({ flow: [3, 3] });
    expect(() => fitLeakage(some, "weighted")).toThrow("flow_uncertainty: row 3 has none");
  });

  test("a line that swings between two slopes for ever is refused, not guessed", () => {
    const readings = uncertainReadings([42.9, 42.1, 42, 40.6], [369, 353, 340.9, 351.3], {
      pressure: [2, 2, 0.1, 0.5],
      flow: [5, 20, 5, 5],
    });
    for (const technique of ["weighted", "errors in both"] as const) {
      expect(() => fitLeakage(readings, technique)).toThrow(/^technique: its line does not settle in 200 steps/);
    }
  });

  test("hostile sizes end in an error or in finite numbers, never in NaN", () => {
    const sizes = [5e-324, 1e-300, 1e-150, 1, 1e150, 1e300];
    for (const technique of techniques) {
      for (const [u, v] of sizes.flatMap((a) => sizes.map((b) => [a, b] as const))) {
        const all = uncertainReadings(
          [60, 45, 30, 15],
          [272, 215, 178, 101].map((q) => q * v),
          {
            pressure: [u, u, 1, u],
            flow: [v, u, v, u],
          },
        );
        try {
          expect(Number.isFinite(fitLeakage(all, technique).exponent)).toBe(true);
        } catch (error) {
          expect(error).toMatchObject({ name: "MethodError" });
        }
      }
    }
  });
});
