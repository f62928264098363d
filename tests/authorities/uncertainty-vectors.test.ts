import { describe, expect, test } from "vitest";
import type { decisionRules } from "../../src/core";
import {
  coefficientWithLimits,
  exponentWithLimits,
  flowWithLimits,
  MethodError,
  studentT,
  verdict,
} from "../../src/core";
import { expectAgreement } from "./support/compare";
import { ordinaryFit } from "./support/leakage";
import { computeDirection, expected } from "./support/vector-tests";
import vectors from "./uncertainty-vectors/vectors.json";

const ESTIMATE = "rounded to 15 digits, computed in fifty; the file itself asks for 1e-11";
const UNCERTAINTY = "rounded to 15 digits, computed in fifty; the file itself asks for 1e-9";

describe.each(vectors.fits)("ordinary fit of '$name'", ({ pressures, flows, expected: { ordinary } }) => {
  const fit = ordinaryFit(pressures, flows);

  test("estimates", () => {
    expectAgreement(fit.exponent, ordinary.n, 1e-12, ESTIMATE);
    expectAgreement(fit.logCoefficient, ordinary.lnC, 1e-12, ESTIMATE);
    expectAgreement(fit.coefficient, ordinary.C, 1e-12, ESTIMATE);
    expectAgreement(fit.determination, ordinary.r2, 1e-12, ESTIMATE);
  });

  test("standard errors and the covariance", () => {
    expectAgreement(fit.residualDeviation, ordinary.s, 1e-11, UNCERTAINTY);
    expectAgreement(fit.standardErrorOfExponent, ordinary.u_n, 1e-11, UNCERTAINTY);
    expectAgreement(fit.standardErrorOfLogCoefficient, ordinary.u_lnC, 1e-11, UNCERTAINTY);
    const covariance = -fit.meanLogPressure * fit.standardErrorOfExponent ** 2;
    expectAgreement(covariance, ordinary.cov_n_lnC, 1e-11, UNCERTAINTY);
  });

  test.each([
    [50, ordinary.q50, ordinary.u_lnq50],
    [10, ordinary.q10, ordinary.u_lnq10],
    [4, ordinary.q4, ordinary.u_lnq4],
  ])("flow at %d Pa and its limits at 95 %", (pressure, flow, uncertainty) => {
    const limits = flowWithLimits(fit, pressure, 0.95);
    const t = studentT(0.95, pressures.length - 2);
    expectAgreement(limits.value, flow, 1e-12, ESTIMATE);
    expectAgreement(Math.log(limits.upper / limits.value) / t, uncertainty, 1e-11, UNCERTAINTY);
    expectAgreement(Math.log(limits.value / limits.lower) / t, uncertainty, 1e-11, UNCERTAINTY);
  });

  test("limits of n and of C", () => {
    const t = studentT(0.95, pressures.length - 2);
    expectAgreement(exponentWithLimits(fit, 0.95).upper, ordinary.n + t * ordinary.u_n, 1e-12, ESTIMATE);
    expectAgreement(exponentWithLimits(fit, 0.95).lower, ordinary.n - t * ordinary.u_n, 1e-12, ESTIMATE);
    const C = coefficientWithLimits(fit, 0.95);
    expectAgreement(C.upper, ordinary.C * Math.exp(t * ordinary.u_lnC), 1e-12, ESTIMATE);
    expectAgreement(C.lower, ordinary.C * Math.exp(-t * ordinary.u_lnC), 1e-12, ESTIMATE);
  });
});

describe("degenerate readings, ordinary fit", () => {
  const named = (name: string) => {
    const found = vectors.degenerate.find((entry) => entry.case === name);
    if (!found?.pressures || !found.flows) throw new Error(`no case ${name}`);
    return () => ordinaryFit(found.pressures, found.flows);
  };

  test("two readings are too few: missing, not wrong", () => {
    expect(named("two readings")).toThrow(expect.objectContaining({ kind: "missing" }));
  });

  test("equal pressures are refused", () => {
    expect(named("equal pressures")).toThrow(MethodError);
    expect(named("equal pressures")).toThrow(expect.objectContaining({ code: "pressuresAlike" }));
  });

  test("equal flows give n = 0", () => {
    expect(named("equal flows")().exponent).toBe(0);
  });

  test("falling flows give a negative n, which the validity checks must catch", () => {
    expect(named("falling flows")().exponent).toBeLessThan(0);
  });

  test("an exact power law gives n = 1 and no uncertainty, never NaN", () => {
    const fit = named("exact power law")();
    expectAgreement(fit.exponent, 1, 1e-14, "an exact power law");
    for (const zero of [fit.residualDeviation, fit.standardErrorOfExponent, fit.standardErrorOfLogCoefficient]) {
      expect(zero).toBeLessThan(1e-14);
    }
  });

  test("a pressure that is not above 0 is an error that names its row", () => {
    expect(named("non-positive induced pressure")).toThrow(expect.objectContaining({ place: { row: 3 } }));
  });
});

const [iso, e779] = [vectors.sensitivities.iso, vectors.sensitivities.e779];

describe("whole tests", () => {
  describe.each([
    ["ISO 9972", 0, iso[0]],
    ["ISO 9972", 1, iso[1]],
    ["ASTM E779", 0, e779[0]],
    ["ASTM E779", 1, e779[1]],
  ] as const)("%s, direction %d", (standard, index, values) => {
    if (!values) throw new Error("no values");
    const result = computeDirection(index, standard);

    test("n, C at reference conditions and the flows at 50, 10 and 4 Pa", () => {
      expectAgreement(result.fit.exponent, values.n.value, 1e-12, ESTIMATE);
      expectAgreement(Math.log(result.coefficientAtReference.value), values.ln_C_L.value, 1e-12, ESTIMATE);
      expectAgreement(Math.log(result.at50.flow.value), values.ln_q50.value, 1e-12, ESTIMATE);
      expectAgreement(Math.log(result.at(10).flow.value), values.ln_q10.value, 1e-12, ESTIMATE);
      expectAgreement(Math.log(result.at(4).flow.value), values.ln_q4.value, 1e-12, ESTIMATE);
    });
  });

  test("mean n50 of both directions", () => {
    const n50 = [0, 1].map((index) => computeDirection(index, "ISO 9972").at50.airChangeRate?.value ?? NaN);
    expectAgreement(((n50[0] ?? NaN) + (n50[1] ?? NaN)) / 2, expected.n50, 1e-12, ESTIMATE);
  });

  test.each([0, 1])("limits of q50 and n hold the scatter of the readings, direction %d", (index) => {
    const result = computeDirection(index, "ISO 9972");
    const scatter = expected.scatter?.[index];
    if (!scatter) throw new Error("no scatter");
    const t = studentT(0.95, result.fit.degreesOfFreedom);
    expectAgreement(result.fit.residualDeviation, scatter.s, 1e-10, UNCERTAINTY);
    expectAgreement(result.fit.standardErrorOfExponent, scatter.u_n, 1e-10, UNCERTAINTY);
    const { value, upper } = result.at50.flow;
    expectAgreement(Math.log(upper / value) / t, scatter.u_ln_q50, 1e-10, UNCERTAINTY);
  });
});

describe("decision rules of JCGM 106", () => {
  test.each(vectors.conformity)("$result ± $U against $target", (row) => {
    const decide = (rule: (typeof decisionRules)[number]) =>
      verdict(row.result, row.target, { rule, expandedUncertainty: row.U });
    expect(decide("plain")).toBe(row.plain);
    expect(decide("guarded acceptance")).toBe(row.guarded_acceptance);
    expect(decide("guarded rejection")).toBe(row.guarded_rejection);
  });
});
