import { describe, expect, it } from "vitest";
import { studentT } from "../../../src/core/index";
import {
  logGamma,
  normalCumulative,
  findNormalQuantile,
  findStudentQuantile,
  studentTail,
} from "../../../src/workbook/formula/functions/special-functions";
import { fitLeastSquares } from "../../../src/workbook/formula/functions/regression";
import { roundDecimal } from "../../../src/workbook/formula/functions/rounding";
import { value } from "./book";

const relative = (found: number, exact: number): number => Math.abs(found / exact - 1);

describe("numerics behind the functions", () => {
  it("give Student's t as the method's own code does, by another way, to 1e-12", () => {
    for (const freedom of [1, 2, 3, 5, 8, 30, 1000, 100_000]) {
      for (const confidence of [0.5, 0.9, 0.95, 0.999]) {
        expect(
          relative(findStudentQuantile((1 - confidence) / 2, freedom), studentT(confidence, freedom)),
        ).toBeLessThan(1e-12);
      }
    }
  });

  it("give the closed forms of Student's t for one and two degrees of freedom", () => {
    for (const t of [0.1, 1, 2.5, 10, 100]) {
      expect(relative(studentTail(t, 1), Math.atan2(1, t) / Math.PI)).toBeLessThan(1e-13);
      const root = Math.sqrt(2 + t * t);
      expect(relative(studentTail(t, 2), 1 / (root * (root + t)))).toBeLessThan(1e-13);
    }
  });

  it("give the normal distribution and its quantile", () => {
    // Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1.
    expect(relative(normalCumulative(1), 0.841344746068543)).toBeLessThan(1e-14);
    expect(relative(normalCumulative(-2), 0.0227501319481792)).toBeLessThan(1e-14);
    for (const p of [1e-10, 1e-4, 0.02, 0.3, 0.975])
      expect(relative(normalCumulative(findNormalQuantile(p)), p)).toBeLessThan(1e-13);
  });

  it("give ln Γ by its recurrence", () => {
    for (const x of [0.3, 0.9999, 1.0001, 1.9, 2.2, 7.5, 50]) {
      expect(Math.abs(logGamma(x + 1) - logGamma(x) - Math.log(x))).toBeLessThan(
        1e-13 * Math.max(1, Math.abs(logGamma(x + 1))),
      );
    }
    expect(logGamma(1)).toBe(0);
    expect(Math.abs(logGamma(2))).toBeLessThan(1e-16);
  });

  it("fit centred: an offset of 1e9 in x costs no slope, and dependent columns give no fit", () => {
    const x = [1, 2, 3, 4, 5].map((step) => 1e9 + step);
    const fit = fitLeastSquares([2.1, 3.9, 6.2, 7.8, 10.1], [x], true);
    expect(fit?.slopes[0]).toBeCloseTo(1.99, 12);
    expect(
      fitLeastSquares(
        [1, 2, 3],
        [
          [1, 2, 3],
          [2, 4, 6],
        ],
        true,
      ),
    ).toBeUndefined();
  });

  it("keep the digits of a small residual: STEYX and LINEST agree on a fit with r² of 1 − 1e-9", () => {
    const cells = Object.fromEntries(
      [1, 2, 3, 4, 5, 6, 7].flatMap((x, row) => [
        [`A${row + 1}`, x],
        [`B${row + 1}`, 1000 + 3 * x + (row % 2 === 0 ? 1e-4 : -1e-4)],
      ]),
    );
    const direct = value("STEYX(B1:B7,A1:A7)", cells) as number;
    const fitted = value("INDEX(LINEST(B1:B7,A1:A7,TRUE,TRUE),3,2)", cells) as number;
    expect(relative(direct, fitted)).toBeLessThan(1e-9);
  });

  it("round as the number is written", () => {
    expect([1.005, 2.675, 1.45, -0.5, 0.285].map((number) => roundDecimal(number, 2, "nearest"))).toEqual([
      1.01, 2.68, 1.45, -0.5, 0.29,
    ]);
    expect(roundDecimal(123_456, -3, "up")).toBe(124_000);
    expect(value("ROUND(1.005*3,2)")).toMatch(/^not evaluated: a number to be rounded/);
  });
});
