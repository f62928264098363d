import { describe, expect, test } from "vitest";
import source from "./nist-noint/certified.json";
import { expectAgreement } from "./support/compare";
import { fitPlainData } from "./support/leakage";

const throughLogarithms = "e^x and ln cost about 1e-16 absolute a reading, the certified values have 15 digits";

/** A set mirrored about the origin has its means at 0, so that its line with intercept is the certified line without one. */
function mirrored(values: readonly number[]): number[] {
  return [...values, ...values.map((value) => -value)];
}

describe.each(Object.entries(source))(
  "NIST StRD %s: certified line through the origin, by the mirrored set",
  (name, set) => {
    const scale = name === "NoInt1" ? 100 : 1;
    const fit = fitPlainData(mirrored(set.x), mirrored(set.y), scale);

    test("slope", () => {
      expectAgreement(fit.exponent, set.certified.B1, 1e-14, throughLogarithms);
    });

    test("standard deviation of the slope: twice the sum of squares makes it √2 smaller", () => {
      const actual = fit.standardErrorOfExponent * Math.SQRT2;
      expectAgreement(actual, set.certified.standard_error_B1, 1e-13, throughLogarithms);
    });

    test("residual standard deviation: 2·SSE over 2·N − 2 is SSE over N − 1", () => {
      const actual = fit.residualDeviation * scale;
      expectAgreement(actual, set.certified.residual_standard_deviation, 1e-13, throughLogarithms);
    });

    test("r² about zero, and no intercept", () => {
      expectAgreement(fit.determination, set.certified.r2_about_zero, 1e-14, throughLogarithms);
      expect(Math.abs(fit.logCoefficient)).toBeLessThan(1e-14);
    });
  },
);

test("NIST StRD NoInt1 with an intercept is the exact line y = 70 + x: no residual becomes a NaN", () => {
  const fit = fitPlainData(source.NoInt1.x, source.NoInt1.y, 100);
  expectAgreement(fit.exponent, 1, 1e-13, "the points lie on the line, the logarithms cost 1e-16 in a spread of 0.1");
  expectAgreement(fit.logCoefficient * 100, 70, 1e-13, "the same");
  expect(fit.standardErrorOfExponent).toBeLessThan(1e-14);
});
