import { describe, expect, test } from "vitest";
import { fitLeakage } from "../../../../src/core";
import { uncertainReadings } from "../../../authorities/support/leakage";
import { pressures, flows, known, sum, near } from "./readings";

describe("errors in both, correlated", () => {
  test("at the line it gives, the sum of squares that it minimizes rises on either side (York et al. 2004)", () => {
    const correlation = [0.3, -0.2, 0.5, 0.1, -0.4, 0.2];
    const given = uncertainReadings(pressures, flows, { ...known, correlation });
    const fit = fitLeakage(given, "errors in both");
    const squares = (n: number, level: number) =>
      sum(
        given.map(({ pressure, flow }, i) => {
          const [ux, uy] = [known.pressure[i]! / pressure, known.flow[i]! / flow];
          const variance = uy ** 2 + n ** 2 * ux ** 2 - 2 * n * correlation[i]! * ux * uy;
          return (Math.log(flow) - level - n * Math.log(pressure)) ** 2 / variance;
        }),
      );
    const least = squares(fit.exponent, fit.logCoefficient);
    near(fit.chiSquare!, least);
    for (const step of [1e-3, -1e-3]) {
      expect(squares(fit.exponent + step, fit.logCoefficient)).toBeGreaterThan(least);
      expect(squares(fit.exponent, fit.logCoefficient + step)).toBeGreaterThan(least);
      expect(squares(fit.exponent + step, fit.logCoefficient - step * 3.3)).toBeGreaterThan(least);
    }
    // Correlations change the line: it is another one without them.
    const plain = fitLeakage(uncertainReadings(pressures, flows, known), "errors in both");
    expect(Math.abs(plain.exponent - fit.exponent)).toBeGreaterThan(1e-5);
    expect(fitLeakage(uncertainReadings(pressures, flows, { ...known, correlation: [] }), "errors in both")).toEqual(
      plain,
    );
  });
});
