import { describe, expect, test } from "vitest";
import {
  coefficientWithLimits,
  covarianceOfExponentAndLogCoefficient,
  exponentWithLimits,
  fitLeakage,
  flowWithLimits,
  standardErrorOfLogFlow,
  studentT,
} from "../../../../src/core";
import { readings, uncertainReadings } from "../../../authorities/support/leakage";
import { pressures, flows, ln, sum, textbook, near } from "./readings";

describe("standard errors and limits", () => {
  const fit = fitLeakage(readings(pressures, flows), "ordinary");

  test("the ordinary line by its normal equations (ISO 9972:2015, regression; ASTM E779)", () => {
    const { slope, level, residuals, XX, x } = textbook(flows.map(() => 1));
    const deviation = Math.sqrt(sum(residuals.map((residual) => residual ** 2)) / 4);
    near(fit.exponent, slope);
    near(fit.coefficient, Math.exp(level));
    near(fit.residualDeviation, deviation);
    near(fit.standardErrorOfExponent, deviation / Math.sqrt(XX));
    near(fit.standardErrorOfLogCoefficient, deviation * Math.sqrt(sum(x.map((value) => value ** 2)) / (6 * XX)));
    near(fit.meanLogPressure, sum(x) / 6);
    near(fit.meanLogFlow, sum(ln(flows)) / 6);
    near(fit.sumOfSquaresOfLogPressure, XX);
    expect(fit).toMatchObject({ technique: "ordinary", count: 6, degreesOfFreedom: 4, enlargement: 1 });
  });

  test("limits: n ± t·s, C and flows by their logarithms", () => {
    const t = studentT(0.9, 4);
    const n = exponentWithLimits(fit, 0.9);
    near(n.upper - n.value, t * fit.standardErrorOfExponent);
    near(n.value - n.lower, t * fit.standardErrorOfExponent);
    const C = coefficientWithLimits(fit, 0.9);
    near(Math.log(C.upper / fit.coefficient), t * fit.standardErrorOfLogCoefficient);
    near(Math.log(C.value / C.lower), t * fit.standardErrorOfLogCoefficient);
    const q = flowWithLimits(fit, 50, 0.9);
    near(q.value, fit.coefficient * 50 ** fit.exponent);
    near(Math.log(q.upper / q.value), t * standardErrorOfLogFlow(fit, Math.log(50)));
    // At 1 Pa the flow is C itself, limits included.
    const at1 = flowWithLimits(fit, 1, 0.9);
    near(at1.upper, C.upper);
    near(at1.lower, C.lower);
  });

  test("u² of ln q_p is that of ln C, of n and of their covariance, at any pressure", () => {
    for (const pressure of [1, 4, 10, 50, 200]) {
      const l = Math.log(pressure);
      const variance =
        fit.standardErrorOfLogCoefficient ** 2 +
        l ** 2 * fit.standardErrorOfExponent ** 2 +
        2 * l * covarianceOfExponentAndLogCoefficient(fit);
      near(standardErrorOfLogFlow(fit, l) ** 2, variance, 1e-8);
    }
  });

  test("r² at both ends: readings on the line, flows that hardly follow the pressure, flows that do not vary", () => {
    const determination = (q: readonly number[]) => fitLeakage(readings([10, 20, 40, 80], q), "ordinary").determination;
    expect(1 - determination([10, 20, 40, 80])).toBeLessThan(1e-15);
    expect(determination([7, 7, 7, 7])).toBe(0);
    // ln 2 apart up and down, and a hundredth of it across: y = 0, 1, 0, 1.01 in units of ln 2 over x = 0, 1, 2, 3.
    const y = [0, 1, 0, 1.01];
    const weak = determination(y.map((value) => 2 ** value));
    const [mean, slope] = [2.01 / 4, (-1.5 * 0 - 0.5 * 1 + 0.5 * 0 + 1.5 * 1.01) / 5];
    near(weak, (slope ** 2 * 5) / sum(y.map((value) => (value - mean) ** 2)));
    expect(weak).toBeLessThan(0.5);
    for (const technique of ["weighted", "organic correlation"] as const) {
      const good = fitLeakage(readings(pressures, flows), technique);
      expect(good.determination).toBeGreaterThan(0.99);
      expect(good.determination).toBeLessThan(1);
    }
    expect(fitLeakage(readings([10, 20, 40, 80], [7, 7, 7, 7]), "weighted").determination).toBe(0);
    expect(
      1 - fitLeakage(readings([10, 20, 40, 80], [10, 20, 40, 80]), "organic correlation").determination,
    ).toBeLessThan(1e-15);
    // Equal weights: the weighted r² is the ordinary one, where it is small too.
    const raised = y.map((value) => 2 ** value);
    const equal = uncertainReadings([10, 20, 40, 80], raised, { flow: raised.map((flow) => 0.01 * flow) });
    near(fitLeakage(equal, "weighted").determination, weak);
  });
});

test("nearly equal readings keep their digits: logarithms from their differences, which are exact", () => {
  const [p, q] = [
    [0, 1, 2, 3],
    [0, 1, 2.5, 3],
  ].map((steps, of) => steps.map((k) => (of === 0 ? 49 : 300) + k * 2 ** -20));
  const [x, y] = [p!, q!].map((values) => {
    const logs = values.map((value) => Math.log1p((value - values[0]!) / values[0]!));
    const mean = sum(logs) / 4;
    return logs.map((log) => log - mean);
  });
  const expected = sum(x!.map((h, i) => h * y![i]!)) / sum(x!.map((h) => h * h));
  const fit = fitLeakage(readings(p!, q!), "ordinary");
  expect(Math.abs(fit.exponent / expected - 1)).toBeLessThan(1e-12);
});

test("r² under weights is 1 − Σw·r²/Σw·k², also where the line explains little", () => {
  for (const q of [flows, [300, 500, 350, 480, 310, 450]]) {
    const u = [9, 6, 8, 5, 6, 4];
    const fit = fitLeakage(uncertainReadings(pressures, q, { flow: u }), "weighted");
    const weights = q.map((flow, i) => (flow / u[i]!) ** 2);
    const y = ln(q);
    const mean = sum(weights.map((w, i) => w * y[i]!)) / sum(weights);
    const all = sum(weights.map((w, i) => w * (y[i]! - mean) ** 2));
    const left = sum(
      weights.map((w, i) => w * (y[i]! - fit.logCoefficient - fit.exponent * Math.log(pressures[i]!)) ** 2),
    );
    near(fit.determination, 1 - left / all, 1e-9);
  }
});

test.each(["ordinary", "organic correlation"] as const)("%s: r² keeps its digits far from any line", (technique) => {
  // y = (1 − ε, −2, 1 + ε) over x = (−1, 0, 1): r² = (2ε)²/(2·(6 + 2ε²)).
  const small = 1e-6;
  const given = readings([10 / Math.E, 10, 10 * Math.E], [Math.exp(1 - small), Math.exp(-2), Math.exp(1 + small)]);
  const expected = small ** 2 / (3 + small ** 2);
  expect(Math.abs(fitLeakage(given, technique).determination / expected - 1)).toBeLessThan(1e-6);
});

test.each(["ordinary", "weighted", "organic correlation"] as const)(
  "%s: no line is better than r² = 1",
  (technique) => {
    for (let step = 0; step < 40; step++) {
      const exponent = 0.5 + step / 80;
      const given = readings(
        pressures,
        pressures.map((pressure) => 30 * pressure ** exponent),
      );
      expect(fitLeakage(given, technique).determination).toBe(1);
    }
  },
);
