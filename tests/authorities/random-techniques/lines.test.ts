import { describe, test } from "vitest";
import { covarianceOfExponentAndLogCoefficient, fitLeakage, standardErrorOfLogFlow } from "../../../src/core";
import type { LeakageFit } from "../../../src/core";
import { exact } from "../high-precision/decimal";
import type { Exact } from "../high-precision/decimal";
import { expectAgreement } from "../support/compare";
import { SETTLED, ways, makeCase } from "./ways";

const FIFTY = "the reference has fifty digits and takes each double at the value it holds";

const families = [
  "as a tester writes it",
  "three readings",
  "huge flows",
  "tiny flows",
  "wide range of pressures",
  "nearly equal pressures",
  "one reading far away",
  "almost without scatter",
];

/** What doubles can know of a scatter: each residual is right to some 1e-16, so a small scatter has fewer digits. */
function scatterTolerance(tolerance: number, fit: LeakageFit): number {
  return Math.max(tolerance, 3e-15 / fit.residualDeviation);
}

const pairs = ways.flatMap((way) => families.map((family) => ({ ...way, family })));

describe.each(pairs)("random readings against fifty digits: $name, $family", (way) => {
  const because = way.tolerance > 1e-12 ? SETTLED : FIFTY;

  test("line, standard errors, covariance, χ²", () => {
    for (let seed = 7000; seed < 7006; seed += 1) {
      const { readings, points } = makeCase(seed, way.family, way.told);
      const fit = fitLeakage(readings, way.technique);
      const expected = way.reference(points);
      expectAgreement(fit.exponent, expected.n.toNumber(), way.tolerance, because);
      // ln C is a small difference where the line is steep: it is known to the digits of n·x̄.
      const size = Math.max(1, Math.abs((fit.exponent * fit.meanLogPressure) / expected.a.toNumber()));
      expectAgreement(fit.logCoefficient, expected.a.toNumber(), way.tolerance * size, because);
      const tolerance = scatterTolerance(way.tolerance, fit);
      // A prior weighs against the enlarged errors, so that they cannot be taken back to those stated.
      const enlargement = expected.prior ? 1 : fit.enlargement;
      const deviation = (variance: Exact) => variance.sqrt().toNumber();
      expectAgreement(fit.standardErrorOfExponent / enlargement, deviation(expected.varianceN), tolerance, because);
      expectAgreement(
        fit.standardErrorOfLogCoefficient / enlargement,
        deviation(expected.varianceA),
        tolerance,
        because,
      );
      const covariance = covarianceOfExponentAndLogCoefficient(fit) / enlargement ** 2;
      expectAgreement(covariance, expected.covariance.toNumber(), 2 * tolerance, because);
      const x = exact(50).ln();
      const variance = expected.varianceA
        .plus(x.pow(2).times(expected.varianceN))
        .plus(x.times(2).times(expected.covariance));
      expectAgreement(
        standardErrorOfLogFlow(fit, Math.log(50)) / enlargement,
        deviation(variance),
        10 * tolerance,
        because,
      );
      if (expected.chi2) expectAgreement(fit.chiSquare ?? NaN, expected.chi2.toNumber(), 10 * tolerance, because);
      if (expected.prior) {
        expectAgreement(fit.prior?.share ?? NaN, expected.prior.share.toNumber(), 10 * tolerance, because);
        const { exponentOfReadings = NaN } = fit.prior ?? {};
        expectAgreement(exponentOfReadings, expected.prior.ofReadings.toNumber(), way.tolerance, because);
      }
    }
  });
});
