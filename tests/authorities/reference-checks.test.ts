import { describe, expect, test } from "vitest";
import { at, exact } from "./high-precision/decimal";
import { fitLeakage, fitLine, standardErrorAt } from "./high-precision/leakage";
import {
  airDensity,
  airViscosity,
  barometricPressure,
  densityByAltitude,
  saturationPressure,
} from "./high-precision/air";
import { normalProbability } from "./high-precision/normal";
import { polygonArea } from "./high-precision/envelope";
import { chiSquareProbability } from "./high-precision/chi-square";
import { studentProbability, studentQuantile } from "./high-precision/student";
import norris from "./nist-norris/certified.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import { norrisData } from "./support/norris";
import vectors from "./uncertainty-vectors/vectors.json";

// The fifty-digit reference is itself checked here against published figures, before anything is compared with it.

const FIFTEEN = "the source has 15 digits";

test("NIST Norris", () => {
  const { x, y } = norrisData();
  const decimal = (values: readonly number[]) => values.map((value) => exact(String(value)));
  const fit = fitLine(decimal(x), decimal(y), exact("0.95"));
  expectAgreement(fit.n.toNumber(), norris.B1, 1e-14, FIFTEEN);
  expectAgreement(fit.lnC.toNumber(), norris.B0, 1e-14, FIFTEEN);
  expectAgreement(fit.standardErrorN.toNumber(), norris.standard_error_B1, 1e-14, FIFTEEN);
  expectAgreement(fit.standardErrorLnC.toNumber(), norris.standard_error_B0, 1e-14, FIFTEEN);
  expectAgreement(fit.residualDeviation.toNumber(), norris.residual_standard_deviation, 1e-14, FIFTEEN);
  expectAgreement(fit.r2.toNumber(), norris.r2, 1e-14, FIFTEEN);
});

test.each(vectors.fits)("ordinary fit of '$name'", ({ pressures, flows, expected: { ordinary } }) => {
  const decimal = (values: readonly number[]) => values.map((value) => exact(String(value)));
  const fit = fitLeakage(decimal(pressures), decimal(flows), exact("0.95"));
  expectAgreement(fit.n.toNumber(), ordinary.n, 1e-14, FIFTEEN);
  expectAgreement(fit.lnC.toNumber(), ordinary.lnC, 1e-14, FIFTEEN);
  expectAgreement(fit.standardErrorN.toNumber(), ordinary.u_n, 1e-12, "computed partly in doubles by the source");
  expectAgreement(standardErrorAt(fit, exact(4).ln()).toNumber(), ordinary.u_lnq4, 1e-12, "the same");
});

describe("Student's t", () => {
  test.each(vectors.t_quantile_975.filter((row) => typeof row.dof === "number"))("$dof", ({ dof, t }) => {
    expectAgreement(studentQuantile(Number(dof), exact("0.95")).toNumber(), t, 1e-14, FIFTEEN);
  });

  test("the quantile is the inverse of the probability to forty digits", () => {
    for (const dof of [1, 2, 3, 10, 47, 198]) {
      const t = studentQuantile(dof, exact("0.95"));
      expect(studentProbability(dof, t).minus("0.95").abs().lessThan("1e-40")).toBe(true);
    }
  });

  test("closed forms: tan for one degree of freedom, c·√(2/(1 − c²)) for two", () => {
    const c = exact("0.95");
    const two = c.times(
      exact(2)
        .dividedBy(exact(1).minus(c.pow(2)))
        .sqrt(),
    );
    expect(studentQuantile(2, c).minus(two).abs().lessThan("1e-40")).toBe(true);
    expectAgreement(studentQuantile(1, c).toNumber(), Math.tan((Math.PI * 0.95) / 2), 1e-14, "tan in doubles");
  });
});

describe("χ²", () => {
  // Upper 2.5 % points as tables of the distribution print them (common knowledge of statistics; check against your own copy).
  test.each([
    [1, 5.024],
    [3, 9.348],
    [6, 14.449],
    [8, 17.535],
    [10, 20.483],
  ])("97.5 % point with %d degrees of freedom", (dof, point) => {
    expectPrinted(chiSquareProbability(exact(point), dof).toNumber(), 0.975, 4);
  });

  test("closed forms: 1 − e^(−x/2) with two degrees of freedom, 1 − e^(−x/2)·(1 + x/2) with four", () => {
    for (const x of ["0.01", "1", "7.4", "60"].map(exact)) {
      const tail = x.dividedBy(-2).exp();
      const four = exact(1).minus(tail.times(x.dividedBy(2).plus(1)));
      expect(chiSquareProbability(x, 2).minus(exact(1).minus(tail)).abs().lessThan("1e-45")).toBe(true);
      expect(chiSquareProbability(x, 4).minus(four).abs().lessThan("1e-45")).toBe(true);
    }
  });

  test("the square of a normal variable has one degree of freedom", () => {
    for (const z of ["0.3", "1", "2.5"].map(exact)) {
      const within = normalProbability(z).times(2).minus(1);
      expect(chiSquareProbability(z.pow(2), 1).minus(within).abs().lessThan("1e-45")).toBe(true);
    }
  });
});

test("air at the recomputed points of the method", () => {
  expectPrinted(saturationPressure(exact(20)).toNumber(), 2339.25, 2);
  expectPrinted(airDensity(exact(20), exact(101325), exact(0)).toNumber(), 1.2041, 5);
  expectPrinted(airDensity(exact(20), exact(101325), exact("0.5")).toNumber(), 1.19884, 5);
  expectPrinted(airDensity(exact(0), exact(101325), exact(0)).toNumber(), 1.29226, 5);
  expectPrinted(airViscosity(exact(20)).toNumber() * 1e5, 1.8134, 4);
  expectPrinted(barometricPressure(exact(1000)).toNumber() / 1000, 89.875, 3);
  // 293 K in the formula of ASTM E779 is 293.15 K less the 0.15 that it also leaves out of 273.15.
  expectAgreement(densityByAltitude(exact(20), exact(0)).toNumber(), 1.2041, 1e-15, "reference point of the formula");
});

test("a polygon: the unit square, and the same turned and walked the other way", () => {
  expect(
    polygonArea([
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ]).toNumber(),
  ).toBe(1);
  expect(
    polygonArea([
      [0, 1],
      [1, 1],
      [1, 0],
      [0, 0],
    ]).toNumber(),
  ).toBe(1);
});

test("a double is taken at the value it holds, not at the digits it prints", () => {
  expect(exact(0.1).minus("0.1").toNumber()).toBe(5.551115123125783e-18);
  expect(at([exact(0.5)], 0).toString()).toBe("0.5");
});
