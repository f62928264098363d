import { describe, expect, test } from "vitest";
import { covarianceOfExponentAndLogCoefficient, fitLeakage } from "../../src/core";
import source from "./iso-ts-28037/example.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import { fitPlainData, plainReadings } from "./support/leakage";

const scale = 10;
const { published } = source;
const fit = fitPlainData(source.x, source.y, scale);

describe("ISO/TS 28037:2010 p. 13: equal uncertainties of y, which is the ordinary line", () => {
  test("slope and intercept", () => {
    expectPrinted(fit.exponent, published.slope, 6);
    expectPrinted(fit.logCoefficient * scale, published.intercept, 6);
  });

  test("the residuals give χ² with the stated uncertainty", () => {
    const stated = source.u_y[0] ?? NaN;
    const chi2 = fit.degreesOfFreedom * ((fit.residualDeviation * scale) / stated) ** 2;
    expectPrinted(chi2, published.chi2, 3);
  });

  test("standard errors from the scatter are the published ones times √(χ²/(N − 2))", () => {
    const ratio = Math.sqrt(published.chi2 / fit.degreesOfFreedom);
    const because = "χ² is printed with four digits, and its root enters";
    expectAgreement(fit.standardErrorOfExponent, published.u_slope * ratio, 2e-4, because);
    expectAgreement(fit.standardErrorOfLogCoefficient * scale, published.u_intercept * ratio, 2e-4, because);
    const covariance = -fit.meanLogPressure * scale * fit.standardErrorOfExponent ** 2;
    expectAgreement(covariance, published.covariance * ratio ** 2, 4e-4, because);
  });

  test("without that factor they would differ by a third: the comparison is not empty", () => {
    expect(Math.abs(fit.standardErrorOfExponent / published.u_slope - 1)).toBeGreaterThan(0.3);
  });
});

describe("ISO/TS 28037:2010 p. 13: the stated uncertainties as weights", () => {
  const line = fitLeakage(plainReadings(source.x, source.y, scale, { y: source.u_y }), "weighted");

  test("line, standard uncertainties, covariance and χ² as published", () => {
    expectPrinted(line.exponent, published.slope, 6);
    expectPrinted(line.logCoefficient * scale, published.intercept, 6);
    expectPrinted(line.standardErrorOfExponent, published.u_slope, 7);
    expectPrinted(line.standardErrorOfLogCoefficient * scale, published.u_intercept, 7);
    expectPrinted(covarianceOfExponentAndLogCoefficient(line) * scale, published.covariance, 8);
    expectPrinted(line.chiSquare ?? NaN, published.chi2, 3);
  });

  test("χ² does not exceed its degrees of freedom, so the stated uncertainties stand", () => {
    expect([line.enlargement, line.degreesOfFreedom]).toEqual([1, Infinity]);
  });
});
