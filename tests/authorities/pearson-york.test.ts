import { describe, test } from "vitest";
import { covarianceOfExponentAndLogCoefficient, fitLeakage } from "../../src/core";
import source from "./pearson-york/data.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import { fitPlainData, plainReadings } from "./support/leakage";
import vectors from "./uncertainty-vectors/vectors.json";

const { published } = source;
const fit = fitPlainData(source.x, source.y, 1);
const ELEVEN = "twelve digits are printed, e^x and ln cost less";

describe("Pearson's data: the ordinary line", () => {
  test("slope and intercept as published", () => {
    const because = "the source minimized iteratively: exact fractions differ from its figures by 1e-9";
    expectAgreement(fit.exponent, published.ordinary.slope, 2e-9, because);
    expectAgreement(fit.logCoefficient, published.ordinary.intercept, 2e-9, because);
  });

  test("slope and intercept in exact fractions", () => {
    const { slope, intercept } = source.derived.ordinary_in_exact_fractions;
    expectAgreement(fit.exponent, slope, 1e-14, "e^x and ln cost 1e-16 a point");
    expectAgreement(fit.logCoefficient, intercept, 1e-14, "e^x and ln cost 1e-16 a point");
  });

  test("correlation coefficient", () => {
    expectAgreement(-Math.sqrt(fit.determination), published.correlation, 1e-11, ELEVEN);
  });

  test("slope of the line of organic correlation, the ordinary slope over r", () => {
    const slope = fit.exponent / Math.sqrt(fit.determination);
    expectAgreement(slope, source.derived.organic_slope, 1e-9, "the derived value has ten digits");
  });
});

const deviations = (weights: readonly number[]) => weights.map((weight) => 1 / Math.sqrt(weight));
const uncertainty = { x: deviations(source.weight_x), y: deviations(source.weight_y) };

describe("Pearson's data with York's weights: errors in both", () => {
  const line = fitLeakage(plainReadings(source.x, source.y, 1, uncertainty), "errors in both");
  const { york, williamson } = published;
  const { expected } = vectors.pearson_york;
  const FIFTEEN = "the vectors have fifteen digits; the iteration stops when the slope moves by 1e-13 of itself";

  test("slope and intercept as York and Williamson published them", () => {
    expectPrinted(line.exponent, york.slope, 9);
    expectPrinted(line.logCoefficient, york.intercept, 9);
    expectPrinted(line.exponent, williamson.slope, 11);
    expectPrinted(line.logCoefficient, williamson.intercept, 11);
  });

  test("standard errors, covariance and reduced χ² as published; the scatter is larger than stated, so the project enlarges them", () => {
    const { enlargement } = line;
    expectPrinted(line.standardErrorOfExponent / enlargement, york.u_slope, 9);
    expectPrinted(line.standardErrorOfLogCoefficient / enlargement, york.u_intercept, 9);
    expectPrinted(covarianceOfExponentAndLogCoefficient(line) / enlargement ** 2, york.covariance, 7);
    expectPrinted((line.chiSquare ?? NaN) / 8, york.reduced_chi2, 9);
    expectPrinted(enlargement ** 2, york.reduced_chi2, 9);
  });

  test("fifteen digits", () => {
    const { x, y, weight_x, weight_y } = vectors.pearson_york;
    const known = { x: deviations(weight_x), y: deviations(weight_y) };
    const line = fitLeakage(plainReadings(x, y, 1, known), "errors in both");
    expectAgreement(line.exponent, expected.slope, 1e-12, FIFTEEN);
    expectAgreement(line.logCoefficient, expected.intercept, 1e-12, FIFTEEN);
    expectAgreement(line.standardErrorOfExponent / line.enlargement, expected.u_slope, 1e-11, FIFTEEN);
    expectAgreement(line.standardErrorOfLogCoefficient / line.enlargement, expected.u_intercept, 1e-11, FIFTEEN);
    const covariance = covarianceOfExponentAndLogCoefficient(line) / line.enlargement ** 2;
    expectAgreement(covariance, expected.covariance, 1e-11, FIFTEEN);
    expectAgreement(line.chiSquare ?? NaN, expected.chi2, 1e-11, FIFTEEN);
  });
});

test("Pearson's data weighted by the errors of y alone, as published and in exact fractions", () => {
  const line = fitLeakage(plainReadings(source.x, source.y, 1, { y: uncertainty.y }), "weighted");
  const because = "the source minimized iteratively: exact fractions differ from its figures by 6e-9";
  expectAgreement(line.exponent, published.weighted_by_y.slope, 1e-8, because);
  expectAgreement(line.logCoefficient, published.weighted_by_y.intercept, 1e-8, because);
  const { slope, intercept } = source.derived.weighted_by_y_in_exact_fractions;
  expectAgreement(line.exponent, slope, 1e-13, "e^x and ln, and roots of the weights, cost 1e-16 a point");
  expectAgreement(line.logCoefficient, intercept, 1e-13, "e^x and ln, and roots of the weights, cost 1e-16 a point");
});

test("the line of organic correlation has no meaning for data that fall; of the data turned upside down it has the derived slope", () => {
  const turned = plainReadings(
    source.x,
    source.y.map((value) => -value),
    1,
    {},
  );
  const line = fitLeakage(turned, "organic correlation");
  expectAgreement(line.exponent, -source.derived.organic_slope, 1e-9, "the derived value has ten digits");
});
