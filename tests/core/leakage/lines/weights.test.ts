import { describe, expect, test } from "vitest";
import { fitLeakage } from "../../../../src/core";
import { readings, uncertainReadings } from "../../../authorities/support/leakage";
import { pressures, flows, known, sum, textbook, near } from "./readings";

describe("weights", () => {
  test("CGSB's q² where nothing is stated: errors from the scatter, N − 2 degrees of freedom", () => {
    const weights = flows.map((flow) => (flow / 611) ** 2);
    const { slope, level, residuals, W, XX } = textbook(weights);
    const fit = fitLeakage(readings(pressures, flows), "weighted");
    near(fit.exponent, slope);
    near(fit.logCoefficient, level);
    const variance = sum(weights.map((weight, i) => weight * residuals[i]! ** 2)) / 4;
    near(fit.standardErrorOfExponent, Math.sqrt(variance / XX));
    near(fit.standardErrorOfLevel, Math.sqrt(variance / W));
    near(fit.residualDeviation, Math.sqrt(sum(residuals.map((residual) => residual ** 2)) / 4));
    expect(fit).toMatchObject({ degreesOfFreedom: 4, enlargement: 1, count: 6 });
    expect(fit).not.toHaveProperty("chiSquare");
  });

  test("stated uncertainties of the flows: errors from them, χ² tells whether the scatter agrees", () => {
    const relative = flows.map((flow, i) => known.flow[i]! / flow);
    const { slope, residuals, W, XX } = textbook(relative.map((u) => u ** -2));
    const fit = fitLeakage(uncertainReadings(pressures, flows, { flow: known.flow }), "weighted");
    near(fit.exponent, slope);
    const chiSquare = sum(residuals.map((residual, i) => (residual / relative[i]!) ** 2));
    expect(chiSquare).toBeLessThan(4);
    near(fit.chiSquare!, chiSquare);
    near(fit.standardErrorOfExponent, 1 / Math.sqrt(XX));
    near(fit.standardErrorOfLevel, 1 / Math.sqrt(W));
    expect(fit).toMatchObject({ degreesOfFreedom: Infinity, enlargement: 1 });
    // Stated ten times too small, the scatter speaks: the same line, its errors enlarged to what the scatter says.
    const small = { flow: known.flow.map((u) => u / 10) };
    const enlarged = fitLeakage(uncertainReadings(pressures, flows, small), "weighted");
    near(enlarged.exponent, slope);
    near(enlarged.chiSquare!, 100 * chiSquare);
    near(enlarged.enlargement, Math.sqrt((100 * chiSquare) / 4));
    near(enlarged.standardErrorOfExponent, (enlarged.enlargement / 10) * fit.standardErrorOfExponent);
    expect(enlarged.degreesOfFreedom).toBe(4);
  });

  test("uncertain pressures add n²·u²(x) to the variance of a reading (Orear 1982)", () => {
    const fit = fitLeakage(uncertainReadings(pressures, flows, known), "weighted");
    const { slope } = textbook(
      flows.map(
        (flow, i) => 1 / ((known.flow[i]! / flow) ** 2 + (fit.exponent * (known.pressure[i]! / pressures[i]!)) ** 2),
      ),
    );
    near(fit.exponent, slope);
  });
});
