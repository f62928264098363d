import { describe, expect, test } from "vitest";
import type { Technique } from "../../src/core";
import {
  covarianceOfExponentAndLogCoefficient,
  exponentWithLimits,
  fitLeakage,
  flowWithLimits,
  normalQuantile,
  residualOf,
  standardErrorOfLogFlow,
  studentT,
} from "../../src/core";
import { expectAgreement } from "./support/compare";
import { uncertainReadings } from "./support/leakage";
import vectors from "./uncertainty-vectors/vectors.json";

const ESTIMATE = "rounded to 15 digits, computed in fifty; the file itself asks for 1e-11";
const UNCERTAINTY = "rounded to 15 digits, computed in fifty; the file itself asks for 1e-9";

/** Each entry of the vectors, the technique that gives it and what it is told of the readings' errors. */
const entries: Record<string, readonly [Technique, ...("pressure" | "flow" | "correlation")[]]> = {
  weighted_q2_relative: ["weighted"],
  weighted_stated_uy: ["weighted", "flow"],
  weighted_effective_iterated: ["weighted", "pressure", "flow"],
  organic: ["organic correlation"],
  weighted_organic: ["weighted organic correlation", "pressure", "flow"],
  york: ["errors in both", "pressure", "flow"],
  york_correlated: ["errors in both", "pressure", "flow", "correlation"],
};

interface Expected {
  readonly n: number;
  readonly lnC: number;
  readonly C: number;
  readonly u_n: number;
  readonly u_lnC: number;
  readonly cov_n_lnC: number;
  readonly q50: number;
  readonly u_lnq50: number;
  readonly q10: number;
  readonly u_lnq10: number;
  readonly q4: number;
  readonly u_lnq4: number;
  readonly chi2?: number;
  readonly r2?: number;
}

type VectorFit = (typeof vectors.fits)[number];

const cases = vectors.fits.flatMap((fit) =>
  Object.entries(fit.expected)
    .filter(([entry]) => entry in entries)
    .map(([entry, expected]) => ({ name: fit.name, entry, fit, expected: expected as Expected })),
);

function fitted(vector: VectorFit, entry: string) {
  const [technique, ...told] = entries[entry] ?? [];
  if (!technique) throw new Error(`no technique for ${entry}`);
  const known = {
    pressure: vector.u_pressure,
    flow: vector.u_flow,
    ...("correlation_xy" in vector && { correlation: vector.correlation_xy }),
  };
  const errors = Object.fromEntries(Object.entries(known).filter(([name]) => (told as string[]).includes(name)));
  const readings = uncertainReadings(vector.pressures, vector.flows, errors);
  return { readings, fit: fitLeakage(readings, technique) };
}

test("every fit of the vectors is compared, each by six techniques, those with a correlation by a seventh", () => {
  const correlated = vectors.fits.filter((fit) => "correlation_xy" in fit);
  expect(cases.length).toBe(6 * vectors.fits.length + correlated.length);
  expect(correlated.length).toBeGreaterThan(0);
  const left = vectors.fits.flatMap(({ expected }) => Object.keys(expected)).filter((entry) => !(entry in entries));
  expect(left.filter((entry) => entry !== "ordinary" && !entry.startsWith("not_to_implement_"))).toEqual([]);
});

describe.each(cases)("$entry of '$name'", ({ entry, fit: vector, expected }) => {
  const { fit, readings } = fitted(vector, entry);
  const stated = fit.enlargement;

  test("estimates", () => {
    expectAgreement(fit.exponent, expected.n, 1e-12, ESTIMATE);
    expectAgreement(fit.logCoefficient, expected.lnC, 1e-12, ESTIMATE);
    expectAgreement(fit.coefficient, expected.C, 1e-12, ESTIMATE);
    if (expected.r2 !== undefined) expectAgreement(fit.determination, expected.r2, 1e-12, ESTIMATE);
  });

  test("standard uncertainties and the covariance, before any enlargement", () => {
    expectAgreement(fit.standardErrorOfExponent / stated, expected.u_n, 1e-11, UNCERTAINTY);
    expectAgreement(fit.standardErrorOfLogCoefficient / stated, expected.u_lnC, 1e-11, UNCERTAINTY);
    const covariance = covarianceOfExponentAndLogCoefficient(fit) / stated ** 2;
    expectAgreement(covariance, expected.cov_n_lnC, 1e-11, UNCERTAINTY);
  });

  test.each([
    [50, expected.q50, expected.u_lnq50],
    [10, expected.q10, expected.u_lnq10],
    [4, expected.q4, expected.u_lnq4],
  ])("flow at %d Pa, its standard uncertainty and its limits", (pressure, flow, uncertainty) => {
    const limits = flowWithLimits(fit, pressure, 0.95);
    expectAgreement(limits.value, flow, 1e-12, ESTIMATE);
    const own = standardErrorOfLogFlow(fit, Math.log(pressure));
    expectAgreement(own / stated, uncertainty, 1e-11, UNCERTAINTY);
    const t = fit.degreesOfFreedom === Infinity ? normalQuantile(0.025) : studentT(0.95, readings.length - 2);
    expectAgreement(Math.log(limits.upper / limits.value) / t, own, 1e-11, UNCERTAINTY);
    expectAgreement(Math.log(limits.value / limits.lower) / t, own, 1e-11, UNCERTAINTY);
  });

  test("χ²", () => {
    if (entry === "weighted_q2_relative") {
      const sum = readings.reduce((total, reading) => {
        const residual = Math.log1p(residualOf(fit, reading).relative);
        return total + (reading.flow * residual) ** 2;
      }, 0);
      expectAgreement(sum, expected.chi2 ?? NaN, 1e-11, UNCERTAINTY);
    }
    if (fit.chiSquare !== undefined) expectAgreement(fit.chiSquare, expected.chi2 ?? NaN, 1e-11, UNCERTAINTY);
    expect(fit.chiSquare === undefined).toBe(entry === "weighted_q2_relative" || entry === "organic");
  });

  test("scatter larger than stated enlarges by √(χ²/(N − 2)) and leaves N − 2; else stated with infinite degrees of freedom", () => {
    const free = readings.length - 2;
    const chi2 = fit.chiSquare;
    if (chi2 === undefined) {
      expect([fit.enlargement, fit.degreesOfFreedom]).toEqual([1, free]);
    } else if (chi2 > free) {
      expect(fit.degreesOfFreedom).toBe(free);
      expectAgreement(fit.enlargement ** 2, chi2 / free, 1e-14, "the rule itself");
      const { upper, value } = exponentWithLimits(fit, 0.95);
      const half = studentT(0.95, free) * expected.u_n * Math.sqrt(chi2 / free);
      expectAgreement(upper - value, half, 1e-11, UNCERTAINTY);
    } else {
      expect([fit.enlargement, fit.degreesOfFreedom]).toEqual([1, Infinity]);
    }
  });
});

test("both sides of the χ² rule occur", () => {
  const frees = cases
    .map(({ entry, fit }) => fitted(fit, entry).fit)
    .filter(({ chiSquare }) => chiSquare !== undefined);
  expect(new Set(frees.map(({ enlargement }) => enlargement > 1))).toEqual(new Set([true, false]));
});

const techniques = ["weighted", "organic correlation", "weighted organic correlation", "errors in both"] as const;

describe.each(techniques)("degenerate readings, %s", (technique) => {
  const named = (name: string) => {
    const found = vectors.degenerate.find((entry) => entry.case === name);
    if (!found?.pressures || !found.flows) throw new Error(`no case ${name}`);
    const { pressures, flows } = found;
    const errors =
      technique === "organic correlation" ? {} : { pressure: pressures.map(() => 0.3), flow: flows.map(() => 2) };
    return () => fitLeakage(uncertainReadings(pressures, flows, errors), technique);
  };
  const isOrganic = technique.includes("organic");

  test("two readings are too few: missing, not wrong", () => {
    expect(named("two readings")).toThrow(expect.objectContaining({ kind: "missing", term: "pressures" }));
  });

  test("equal pressures are refused", () => {
    expect(named("equal pressures")).toThrow(expect.objectContaining({ code: "pressuresAlike" }));
  });

  test("equal flows: no line of organic correlation, n = 0 by the others", () => {
    if (isOrganic) expect(named("equal flows")).toThrow(expect.objectContaining({ code: "flowsAlike" }));
    else expect(named("equal flows")().exponent).toBe(0);
  });

  test("falling flows: no line of organic correlation, a negative n by the others", () => {
    if (isOrganic) expect(named("falling flows")).toThrow(expect.objectContaining({ code: "flowNotRising" }));
    else expect(named("falling flows")().exponent).toBeLessThan(0);
  });

  test("an exact power law gives n = 1 and no scatter, never NaN", () => {
    const fit = named("exact power law")();
    expectAgreement(fit.exponent, 1, 1e-14, "an exact power law");
    expect(fit.residualDeviation).toBeLessThan(1e-14);
    if (fit.chiSquare === undefined) expect(fit.standardErrorOfExponent).toBeLessThan(1e-14);
    else expect(fit.chiSquare).toBeLessThan(1e-20);
    for (const value of Object.values(fit)) if (typeof value === "number") expect(value).not.toBeNaN();
  });

  test("a pressure that is not above 0 is an error that names its row", () => {
    expect(named("non-positive induced pressure")).toThrow(expect.objectContaining({ place: { row: 3 } }));
  });
});
