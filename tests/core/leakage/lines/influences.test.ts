import { describe, expect, test } from "vitest";
import { fitLeakage, influences, residualOf, techniques, type LeakageReading } from "../../../../src/core";
import { readings, uncertainReadings } from "../../../authorities/support/leakage";
import { pressures, flows, known, sum, near } from "./readings";

describe("residuals and influences", () => {
  test("residual: (reading − fitted)/fitted", () => {
    const fit = fitLeakage(readings(pressures, flows), "ordinary");
    const { fittedFlow, relative } = residualOf(fit, readings(pressures, flows)[2]!);
    near(fittedFlow, fit.coefficient * 33 ** fit.exponent);
    near(relative, (401 - fittedFlow) / fittedFlow);
  });

  test.each(techniques)("%s: without a reading, the line is that of the others", (technique) => {
    const given = uncertainReadings(pressures, flows, known);
    const fit = fitLeakage(given, technique);
    influences(fit, given, 50).forEach((influence, index) => {
      const others = fitLeakage(
        given.filter((_, position) => position !== index),
        technique,
      );
      near(influence.exponentWithout!, others.exponent, 1e-9);
      near(influence.flowWithout!, others.coefficient * 50 ** others.exponent, 1e-9);
      expect(influence.leverage).toBeGreaterThan(0);
      expect(influence.leverage).toBeLessThan(1);
      expect(influence.cooksDistance).toBeGreaterThan(0);
    });
  });

  test("errors in both: the correlations of the others stay with them", () => {
    const correlation = [0.3, -0.2, 0.5, 0.1, -0.4, 0.2];
    const given = uncertainReadings(pressures, flows, { ...known, correlation });
    const found = influences(fitLeakage(given, "errors in both"), given, 50);
    given.forEach((_, index) => {
      const others = given.filter((__, position) => position !== index);
      near(found[index]!.exponentWithout!, fitLeakage(others, "errors in both").exponent, 1e-9);
    });
  });

  test.each(techniques)("%s: a reading without which no line is left has only its leverage", (technique) => {
    const given: LeakageReading[] = uncertainReadings([50, 50, 20], [402, 400, 220], {
      pressure: [1, 1, 1],
      flow: [4, 4, 4],
    });
    const [first, , last] = influences(fitLeakage(given, technique), given, 50);
    expect(Object.keys(last!)).toEqual(["leverage"]);
    expect(first).toHaveProperty("exponentWithout");
  });

  test.each(techniques)("%s: readings on one line pull nothing", (technique) => {
    const exact = [10, 20, 40, 80];
    // With the exponent that the technique with a prior expects, so that no reading changes what the prior weighs.
    const given = uncertainReadings(
      exact,
      exact.map((p) => 30 * p ** 0.65),
      { pressure: [1, 1, 1, 1], flow: [2, 2, 2, 2] },
    );
    for (const { cooksDistance } of influences(fitLeakage(given, technique), given, 50)) expect(cooksDistance).toBe(0);
  });

  test("Cook's distance under stated uncertainties: Σw·(ŷ − ŷ without i)²/(2·Σw·r²/(N − 2)), w = 1/(u²(y) + n²·u²(x))", () => {
    const given = uncertainReadings(pressures, flows, known);
    for (const technique of ["weighted", "weighted organic correlation", "errors in both"] as const) {
      const fit = fitLeakage(given, technique);
      const w = flows.map(
        (q, i) => 1 / ((known.flow[i]! / q) ** 2 + (fit.exponent * (known.pressure[i]! / pressures[i]!)) ** 2),
      );
      const level = ({ logCoefficient, exponent }: typeof fit, i: number) =>
        logCoefficient + exponent * Math.log(pressures[i]!);
      const variance = sum(w.map((weight, i) => weight * (Math.log(flows[i]!) - level(fit, i)) ** 2)) / 4;
      influences(fit, given, 50).forEach(({ cooksDistance }, index) => {
        const others = fitLeakage(
          given.filter((_, position) => position !== index),
          technique,
        );
        const shifts = sum(w.map((weight, i) => weight * (level(fit, i) - level(others, i)) ** 2));
        near(cooksDistance!, shifts / (2 * variance), 1e-8);
      });
    }
  });

  test("Cook's distance of the ordinary line by its closed form (Cook 1977)", () => {
    const given = readings(pressures, flows);
    const fit = fitLeakage(given, "ordinary");
    influences(fit, given, 50).forEach(({ leverage, cooksDistance }, index) => {
      const residual = Math.log1p(residualOf(fit, given[index]!).relative);
      const closed = (residual ** 2 * leverage) / (2 * fit.residualDeviation ** 2 * (1 - leverage) ** 2);
      near(cooksDistance!, closed, 1e-8);
    });
  });
});
