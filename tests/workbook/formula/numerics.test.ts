import { describe, expect, it } from "vitest";
import { erf, erfc, findNormalQuantile, logGamma } from "../../../src/workbook/formula/functions/special-functions";
import { fitLeastSquares } from "../../../src/workbook/formula/functions/regression";
import { roundDecimal } from "../../../src/workbook/formula/functions/rounding";
import { value } from "./book";

const relative = (found: number, exact: number): number => Math.abs(found / exact - 1);

describe("numerics behind the functions", () => {
  it.each([
    ["T.INV.2T(0.05,1)", 12.706204736174705],
    ["T.INV.2T(0.05,8)", 2.3060041352041667],
    ["T.INV(0.95,30)", 1.6972608865939578],
    ["T.INV(1E-12,5)", -393.95695957760375],
    ["T.INV(0.001,1000)", -3.098402163912923],
    ["T.DIST.RT(2.5,3)", 0.04385332350403277],
    ["T.DIST(-12,8,TRUE)", 1.0719333738443856e-6],
    ["T.DIST.RT(37,30)", 6.802903145709932e-27],
    ["NORM.S.DIST(1,TRUE)", 0.8413447460685429],
    ["NORM.S.DIST(-10,TRUE)", 7.619853024160525e-24],
    ["NORM.S.DIST(-30,TRUE)", 4.906713927148187e-198],
    ["NORM.S.INV(1E-10)", -6.361340902404057],
    ["NORM.S.INV(0.02)", -2.053748910631823],
    ["NORM.S.INV(0.4999999)", -2.5066282747031063e-7],
    ["NORM.S.INV(0.7)", 0.5244005127080407],
  ])("%s agrees with fifty digits to 3e-14", (formula, exact) => {
    expect(relative(value(formula) as number, exact)).toBeLessThan(3e-14);
  });

  it("give the closed forms of Student's t for one and two degrees of freedom", () => {
    for (const t of [0.1, 1, 2.5, 10, 100]) {
      expect(relative(value(`T.DIST.RT(${t},1)`) as number, Math.atan2(1, t) / Math.PI)).toBeLessThan(1e-13);
      const root = Math.sqrt(2 + t * t);
      expect(relative(value(`T.DIST.RT(${t},2)`) as number, 1 / (root * (root + t)))).toBeLessThan(1e-13);
    }
    expect(value("T.INV.2T(1,5)")).toBe(0);
    expect(value("T.INV.2T(1E-200,5)")).toBe("not evaluated: a quantile of Student's t for a probability below 1E-100");
  });

  it("give the error function near 0 and its complement far out", () => {
    expect(relative(erf(1e-10), 1.1283791670955126e-10)).toBeLessThan(1e-14);
    expect(relative(erf(-0.1), -0.1124629160182849)).toBeLessThan(1e-14);
    expect(relative(erfc(3), 2.209049699858544e-5)).toBeLessThan(1e-14);
    expect([erf(0), erf(40), erfc(-40), erfc(40), findNormalQuantile(0.5)]).toEqual([0, 1, 2, 0, 0]);
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
