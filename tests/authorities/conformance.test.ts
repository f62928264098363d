import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  combine,
  conformanceProbability,
  limitsOf,
  normalProbability,
  studentT,
  verdict,
  wholeDegreesOfFreedom,
  type BudgetRow,
} from "../../src/core";
import { expectAgreement, expectPrinted } from "./support/compare";
import vectors from "./uncertainty-vectors/vectors.json";

const FIFTEEN = "the vectors have fifteen digits, computed in fifty";

describe("probability of conformity, JCGM 106 on ln y", () => {
  test.each(vectors.conformity)("$result, u $standard_uncertainty, against $target, $dof degrees of freedom", (row) => {
    const degrees = typeof row.dof === "number" ? row.dof : Infinity;
    const { result, standard_uncertainty: u, target } = row;
    expectAgreement(conformanceProbability(result, u, target, degrees), row.probability, 1e-13, FIFTEEN);
    const expanded = studentT(0.95, wholeDegreesOfFreedom(degrees)) * u;
    expectAgreement(expanded, row.U, 1e-13, FIFTEEN);
    expectAgreement(result * Math.exp(expanded / result), row.upper, 1e-12, `${FIFTEEN}; U/y is 5 at most`);
  });

  test("at the limit it is one half, far below it one, far above it a small number that keeps its digits", () => {
    expect(conformanceProbability(0.6, 0.01, 0.6)).toBe(0.5);
    expect(conformanceProbability(0.3, 0.01, 0.6)).toBe(1);
    expectAgreement(
      conformanceProbability(0.6 * Math.exp(0.3), 0.006 * Math.exp(0.3), 0.6),
      normalProbability(-30),
      1e-11,
      "30 relative uncertainties above the limit; ln(T/y) keeps 1e-16 of 1, which the tail multiplies by 30/0.01",
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

/** Limits, relative uncertainties and degrees of freedom of every size; results some uncertainties below or above the limit on the logarithm. */
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

type Case = typeof cases extends fc.Arbitrary<infer Value> ? Value : never;

describe("one law: the limits that are shown, guarded acceptance and the probability decide alike", () => {
  /** A case by its budget: u and U as UNCERTAINTYBUDGET gives them in the unit of the result, and the upper and lower limit that it shows. */
  const budgeted = ({ target, relative, inUncertainties, degrees }: Case) => {
    const result = target * Math.exp(-inUncertainties * relative);
    const freedom = wholeDegreesOfFreedom(degrees);
    const expandedRelative = studentT(0.95, freedom) * relative;
    const row: BudgetRow = { symbol: "all", uncertainty: relative, sensitivity: 1, degreesOfFreedom: freedom };
    const { lower, upper } = limitsOf(result, combine([row], 0.95).expanded);
    return { result, target, degrees, u: result * relative, U: result * expandedRelative, lower, upper };
  };
  /** Within the slack of a comparison both answers are right. */
  const isAtLimit = (limit: number, target: number) => Math.abs(limit / target - 1) < 1e-8;

  test("shown upper limit ≤ T ⇔ guarded acceptance passes ⇔ p_c ≥ 0.975; shown lower limit > T ⇔ it fails ⇔ p_c < 0.025", () => {
    fc.assert(
      fc.property(cases, (given) => {
        const { result, target, degrees, u, U, lower, upper } = budgeted(given);
        fc.pre(!isAtLimit(lower, target) && !isAtLimit(upper, target));
        const p = conformanceProbability(result, u, target, degrees);
        const guarded = verdict(result, target, { rule: "guarded acceptance", expandedUncertainty: U });
        expect(guarded).toBe(upper <= target ? "pass" : lower > target ? "fail" : "not proven");
        expect(guarded).toBe(p >= 0.975 ? "pass" : p < 0.025 ? "fail" : "not proven");
        const rejecting = verdict(result, target, { rule: "guarded rejection", expandedUncertainty: U });
        expect(rejecting).toBe(p < 0.025 ? "fail" : "pass");
      }),
      { numRuns: 2000 },
    );
  });

  test("another unit changes nothing", () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (given, factor) => {
        const { result, target, degrees, u, U, lower, upper } = budgeted(given);
        fc.pre(!isAtLimit(lower, target) && !isAtLimit(upper, target));
        const decided = (unit: number) =>
          verdict(result * unit, target * unit, { rule: "guarded acceptance", expandedUncertainty: U * unit });
        expect(decided(factor)).toBe(decided(1));
        const probability = (unit: number) => conformanceProbability(result * unit, u * unit, target * unit, degrees);
        expect(Math.abs(probability(factor) - probability(1))).toBeLessThan(1e-11);
      }),
    );
  });

  test("where the shown upper limit is the target the probability is 0.975, and the guarded rule passes", () => {
    for (const degrees of [2, 3, 8, 30, 171, 4000, 1e6, Infinity]) {
      const relative = 0.025;
      const expanded = studentT(0.95, degrees) * relative;
      const result = 0.6 * Math.exp(-expanded);
      const p = conformanceProbability(result, result * relative, 0.6, degrees);
      expectAgreement(p, 0.975, 1e-13, "quantile and probability undo each other");
      const decision = { rule: "guarded acceptance", expandedUncertainty: result * expanded } as const;
      expect(verdict(result, 0.6, decision)).toBe("pass");
    }
  });

  test("effective leakage area 71.12 cm², U 15.91 cm², upper limit 88.95 cm²: no guarded pass against 87.99 cm², though y + U lies below", () => {
    expectPrinted(71.12 * Math.exp(15.91 / 71.12), 88.95, 2);
    expect(71.12 + 15.91).toBeLessThan(87.99);
    expect(verdict(71.12, 87.99, { rule: "guarded acceptance", expandedUncertainty: 15.91 })).toBe("not proven");
    expect(verdict(71.12, 88.96, { rule: "guarded acceptance", expandedUncertainty: 15.91 })).toBe("pass");
    expect(conformanceProbability(71.12, 15.91 / 1.96, 87.99)).toBeLessThan(0.975);
  });
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
