import { describe, test } from "vitest";
import { coefficientWithLimits, exponentWithLimits, flowWithLimits, influences, residualOf } from "../../src/core";
import { familyNames, pointsCase } from "./high-precision/cases";
import type { Exact } from "./high-precision/decimal";
import { at, exact } from "./high-precision/decimal";
import { diagnoseReadings } from "./high-precision/diagnosis";
import type { OrdinaryFit } from "./high-precision/leakage";
import { fitLeakage, flowAt, limitsOfC, limitsOfN } from "./high-precision/leakage";
import { Random } from "./high-precision/random";
import { expectAgreement } from "./support/compare";
import { ordinaryFit, readings } from "./support/leakage";

const FIFTY = "the reference has fifty digits and takes each double at the value it holds";
const TIGHT = 1e-12;
const CONFIDENCES = [0.9, 0.95, 0.99];

/** What doubles can know of a scatter s: residuals are differences of logarithms of order 1, each right to some 1e-16. */
function scatterTolerance(fit: OrdinaryFit): number {
  return Math.max(TIGHT, 1e-15 / fit.residualDeviation.toNumber());
}

function expectExact(actual: number, expected: Exact, tolerance = TIGHT): void {
  expectAgreement(actual, expected.toNumber(), tolerance, FIFTY);
}

function seeds(family: string): number[] {
  return Array.from({ length: family === "two hundred readings" ? 5 : 40 }, (_, index) => 1000 + index);
}

describe.each(familyNames)("random readings against fifty digits: %s", (family) => {
  test("curve, standard errors, limits and r²", () => {
    for (const seed of seeds(family)) {
      const random = new Random(seed);
      const { pressures, flows } = pointsCase(random, family);
      const confidence = random.pick(CONFIDENCES);
      const fit = ordinaryFit(pressures, flows);
      const reference = fitLeakage(pressures.map(exact), flows.map(exact), exact(confidence));
      const scatter = scatterTolerance(reference);
      expectExact(fit.exponent, reference.n);
      expectExact(fit.coefficient, reference.C);
      expectExact(fit.determination, reference.r2);
      expectExact(fit.residualDeviation, reference.residualDeviation, scatter);
      expectExact(fit.standardErrorOfExponent, reference.standardErrorN, scatter);
      expectExact(fit.standardErrorOfLogCoefficient, reference.standardErrorLnC, scatter);
      const pairs = [
        [exponentWithLimits(fit, confidence), limitsOfN(reference)],
        [coefficientWithLimits(fit, confidence), limitsOfC(reference)],
        ...[4, 10, 50, 75].map(
          (pressure) => [flowWithLimits(fit, pressure, confidence), flowAt(reference, exact(pressure))] as const,
        ),
      ] as const;
      for (const [actual, expected] of pairs) {
        expectExact(actual.value, expected.value);
        // ln(upper/value) is t·s_y; a limit may be far from its value, or near 0 for n, so the half-widths are compared too.
        expectExact(actual.upper, expected.upper, limitTolerance(expected.upper, expected.value));
        expectExact(actual.lower, expected.lower, limitTolerance(expected.lower, expected.value));
      }
    }
  });

  test("each reading: fitted flow, residual, leverage, Cook's distance, n and q50 without it", () => {
    for (const seed of seeds(family).slice(0, family === "two hundred readings" ? 1 : 6)) {
      const { pressures, flows } = pointsCase(new Random(seed), family);
      const fit = ordinaryFit(pressures, flows);
      const reference = fitLeakage(pressures.map(exact), flows.map(exact), exact(0.95));
      const expected = diagnoseReadings(pressures.map(exact), flows.map(exact), exact(0.95));
      const largest = Math.max(...expected.map(({ cook }) => cook.toNumber()));
      const all = readings(pressures, flows);
      const pulls = influences(fit, all, 50);
      for (const [index, reading] of all.entries()) {
        const row = at(expected, index);
        const { fittedFlow, relative } = residualOf(fit, reading);
        const influence = at(pulls, index);
        expectExact(fittedFlow, row.fitted);
        expectAgreement(
          1 + relative,
          1 + row.residualPercent.toNumber() / 100,
          TIGHT,
          "a residual is known to 1e-16 of its flow",
        );
        expectExact(influence.leverage, row.leverage);
        // A reading that happens to lie on the line has a Cook's distance of rounding noise: compared with the largest of the set.
        const ownTolerance = (10 * scatterTolerance(reference) * largest) / row.cook.toNumber();
        expectExact(influence.cooksDistance ?? NaN, row.cook, Math.max(1e-11, ownTolerance));
        if (row.nWithout && row.q50Without) {
          expectExact(influence.exponentWithout ?? NaN, row.nWithout, 1e-11);
          expectExact(influence.flowWithout ?? NaN, row.q50Without, 1e-11);
        }
      }
    }
  });
});

/** A limit moves with t·s_y, so it is known to the tolerance times how far it lies from the value. */
function limitTolerance(limit: Exact, value: Exact): number {
  const distance = limit.minus(value).abs().dividedBy(limit.abs()).toNumber();
  const logarithmic = limit.dividedBy(value).abs().ln().abs().toNumber();
  return TIGHT * (1 + distance + logarithmic);
}
