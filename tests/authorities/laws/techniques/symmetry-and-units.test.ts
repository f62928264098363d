import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitLeakage, readingSensitivities, techniques } from "../../../../src/core";
import { expectAgreement } from "../../support/compare";
import { ordinaryFit, uncertainReadings, type ReadingErrors } from "../../support/leakage";
import { ROUNDING, tests, type Drawn, fit } from "./draws";

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
