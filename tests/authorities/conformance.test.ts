import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { conformanceProbability, normalProbability, studentT, verdict, wholeDegreesOfFreedom } from "../../src/core";
import { expectAgreement } from "./support/compare";
import vectors from "./uncertainty-vectors/vectors.json";

const FIFTEEN = "the vectors have fifteen digits, computed in fifty";

describe("probability of conformity, JCGM 106", () => {
  test.each(vectors.conformity)("$result ± $standard_uncertainty against $target, $dof degrees of freedom", (row) => {
    const degrees = typeof row.dof === "number" ? row.dof : Infinity;
    const { result, standard_uncertainty: u, target } = row;
    expectAgreement(conformanceProbability(result, u, target, degrees), row.probability, 1e-13, FIFTEEN);
    expectAgreement(studentT(0.95, degrees) * u, row.U, 1e-13, FIFTEEN);
  });

  test("at the limit it is one half, far below it one, far above it a small number that keeps its digits", () => {
    expect(conformanceProbability(0.6, 0.01, 0.6)).toBe(0.5);
    expect(conformanceProbability(0.3, 0.01, 0.6)).toBe(1);
    expectAgreement(
      conformanceProbability(0.9, 0.01, 0.6),
      normalProbability(-30),
      1e-11,
      "(T − y)/u is a quotient of decimals",
    );
  });

  test("without uncertainty it is 1 or 0, a slack of 1e-9 included", () => {
    expect(conformanceProbability((0.56 + 0.64) / 2, 0, 0.6)).toBe(1);
    expect(conformanceProbability(0.6001, 0, 0.6, 3)).toBe(0);
  });

  test("degrees of freedom are truncated as those of U", () => {
    expect([0.3, 1.9, 8, 7.9999999999999, 171.67, Infinity].map(wholeDegreesOfFreedom)).toEqual([
      1,
      1,
      8,
      8,
      171,
      Infinity,
    ]);
    const at = (degrees: number) => conformanceProbability(0.58, 0.015, 0.6, degrees);
    expect(at(3.99)).toBe(at(3));
  });
});

/** Results near the limit, uncertainties and degrees of freedom of every size. */
const cases = fc.record({
  target: fc.double({ min: 0.05, max: 50, noNaN: true }),
  relative: fc.double({ min: 1e-4, max: 0.3, noNaN: true }),
  inUncertainties: fc.double({ min: -14, max: 14, noNaN: true }),
  degrees: fc.oneof(
    fc.integer({ min: 1, max: 40 }),
    fc.double({ min: 1, max: 2e4, noNaN: true }),
    fc.constant(Infinity),
  ),
});

test("y + U ≤ T exactly where the probability is 0.975 or more; y − U > T where it is below 0.025", () => {
  fc.assert(
    fc.property(cases, ({ target, relative, inUncertainties, degrees }) => {
      const u = target * relative;
      const result = target - inUncertainties * u;
      fc.pre(result > 0);
      const U = studentT(0.95, wholeDegreesOfFreedom(degrees)) * u;
      // Within the slack of a comparison both answers are right.
      fc.pre(Math.abs(Math.abs(target - result) - U) > 1e-8 * target);
      const p = conformanceProbability(result, u, target, degrees);
      const guarded = verdict(result, target, { rule: "guarded acceptance", expandedUncertainty: U });
      expect(guarded).toBe(p >= 0.975 ? "pass" : p < 0.025 ? "fail" : "not proven");
    }),
    { numRuns: 2000 },
  );
});

test("exactly at y + U = T the probability is 0.975", () => {
  for (const degrees of [2, 3, 8, 30, 171, 4000, 1e6, Infinity]) {
    const u = 0.015;
    const p = conformanceProbability(0.6 - studentT(0.95, degrees) * u, u, 0.6, degrees);
    expectAgreement(p, 0.975, 1e-13, "quantile and probability undo each other");
  }
});

test("more uncertainty moves the probability toward one half, a higher result lowers it", () => {
  fc.assert(
    fc.property(cases, ({ target, relative, degrees }) => {
      const below = target * 0.9;
      const p = (result: number, u: number) => conformanceProbability(result, u, target, degrees);
      expect(p(below, 2 * relative * target)).toBeLessThanOrEqual(p(below, relative * target));
      expect(p(below * 1.05, relative * target)).toBeLessThanOrEqual(p(below, relative * target));
      expect(p(below, relative * target)).toBeGreaterThan(0.5);
    }),
  );
});
