import { describe, test } from "vitest";
import source from "./pearson-york/data.json";
import { expectAgreement } from "./support/compare";
import { fitPlainData } from "./support/leakage";

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
