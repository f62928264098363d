import { describe, expect, test } from "vitest";
import certified from "./nist-norris/certified.json";
import { expectAgreement } from "./support/compare";
import { fitPlainData } from "./support/leakage";
import { norrisData } from "./support/norris";

const scale = 100;
const { x, y } = norrisData();
const fit = fitPlainData(x, y, scale);
const throughLogarithms = "e^x and ln cost about 1e-16 absolute a reading, the certified values have 15 digits";

describe("NIST StRD Norris: certified straight line", () => {
  test("36 observations were read from the file", () => {
    expect([x.length, y.length]).toEqual([36, 36]);
  });

  test("slope and its standard deviation", () => {
    expectAgreement(fit.exponent, certified.B1, 1e-14, throughLogarithms);
    expectAgreement(fit.standardErrorOfExponent, certified.standard_error_B1, 1e-12, throughLogarithms);
  });

  test("intercept and its standard deviation", () => {
    const small = `${throughLogarithms}, and ln C is 0.003 here`;
    expectAgreement(fit.logCoefficient * scale, certified.B0, 1e-11, small);
    expectAgreement(fit.standardErrorOfLogCoefficient * scale, certified.standard_error_B0, 1e-12, throughLogarithms);
  });

  test("residual standard deviation, r² and degrees of freedom", () => {
    expectAgreement(fit.residualDeviation * scale, certified.residual_standard_deviation, 1e-12, throughLogarithms);
    expectAgreement(fit.determination, certified.r2, 1e-14, "r² is near 1");
    expect(fit.degreesOfFreedom).toBe(certified.degrees_of_freedom);
  });

  test("covariance of intercept and slope as another library's tests print it", () => {
    const covariance = -fit.meanLogPressure * scale * fit.standardErrorOfExponent ** 2;
    expectAgreement(covariance, certified.covariance_from_another_library.cov01, 1e-8, "printed to 9 digits and more");
    const variance = (fit.standardErrorOfLogCoefficient * scale) ** 2;
    expectAgreement(variance, certified.covariance_from_another_library.cov00, 1e-8, "printed to 9 digits");
  });
});
