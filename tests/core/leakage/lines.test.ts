import { describe, expect, test } from "vitest";
import {
  coefficientWithLimits,
  covarianceOfExponentAndLogCoefficient,
  exponentWithLimits,
  fitLeakage,
  flowWithLimits,
  influences,
  readingSensitivities,
  residualOf,
  standardErrorOfLogFlow,
  studentT,
  type LeakageReading,
} from "../../../src/core";
import { readings, uncertainReadings } from "../../authorities/support/leakage";

const pressures = [61, 47, 33, 24, 16, 11];
const flows = [611, 498, 401, 322, 251, 196];
const known = { pressure: [0.4, 0.5, 0.3, 0.6, 0.4, 0.5], flow: [9, 6, 8, 5, 6, 4] };
const ln = (values: readonly number[]) => values.map(Math.log);
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** The weighted line by its normal equations, as a textbook writes them. */
function textbook(weights: readonly number[]) {
  const [x, y] = [ln(pressures), ln(flows)];
  const [W, X, Y] = [sum(weights), sum(weights.map((w, i) => w * x[i]!)), sum(weights.map((w, i) => w * y[i]!))];
  const [XX, XY] = [sum(weights.map((w, i) => w * x[i]! ** 2)), sum(weights.map((w, i) => w * x[i]! * y[i]!))];
  const slope = (W * XY - X * Y) / (W * XX - X * X);
  const level = (Y - slope * X) / W;
  const residuals = x.map((value, i) => y[i]! - level - slope * value);
  return { slope, level, residuals, W, XX: XX - (X * X) / W, x };
}
const near = (actual: number, expected: number, tolerance = 1e-9) =>
  expect(Math.abs(actual - expected)).toBeLessThan(tolerance * Math.max(1e-3, Math.abs(expected)));

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

describe("residuals and influences", () => {
  test("residual: (reading − fitted)/fitted", () => {
    const fit = fitLeakage(readings(pressures, flows), "ordinary");
    const { fittedFlow, relative } = residualOf(fit, readings(pressures, flows)[2]!);
    near(fittedFlow, fit.coefficient * 33 ** fit.exponent);
    near(relative, (401 - fittedFlow) / fittedFlow);
  });

  const techniques = [
    "ordinary",
    "weighted",
    "organic correlation",
    "weighted organic correlation",
    "errors in both",
  ] as const;
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
    const given = uncertainReadings(
      exact,
      exact.map((p) => 30 * p ** 0.6),
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

describe("sensitivities", () => {
  const moved = (given: LeakageReading[], index: number, key: "pressure" | "flow", factor: number) =>
    given.map((reading, position) => {
      if (position !== index) return reading;
      const name = `${key}Uncertainty` as const;
      const uncertainty = reading[name];
      // The relative uncertainties are held.
      return {
        ...reading,
        [key]: reading[key] * factor,
        ...(uncertainty !== undefined && { [name]: uncertainty * factor }),
      };
    });

  // Relative uncertainties held, the weights of organic correlation are held too.
  const moving = [
    "ordinary",
    "errors in both",
    "weighted",
    "organic correlation",
    "weighted organic correlation",
  ] as const;
  test.each(moving)("%s: as the fit itself moves, at 50 Pa", (technique) => {
    const given = uncertainReadings(pressures, flows, known);
    const rows = readingSensitivities(fitLeakage(given, technique), given)(Math.log(50));
    const step = 1e-4;
    rows.forEach((row, index) => {
      for (const key of ["flow", "pressure"] as const) {
        const [up, down] = [1, -1].map((sign) => {
          const fit = fitLeakage(moved(given, index, key, Math.exp(sign * step)), technique);
          return { n: fit.exponent, q: fit.logCoefficient + fit.exponent * Math.log(50) };
        });
        const [toFlow, toExponent] =
          key === "flow" ? [row.flowToFlow, row.exponentToFlow] : [row.flowToPressure, row.exponentToPressure];
        expect(Math.abs((up!.q - down!.q) / (2 * step) - toFlow)).toBeLessThan(1e-6);
        expect(Math.abs((up!.n - down!.n) / (2 * step) - toExponent)).toBeLessThan(1e-6);
      }
    });
  });

  test("weights that do not follow the line are held: CGSB's q² among them", () => {
    const given = readings(pressures, flows);
    const rows = readingSensitivities(fitLeakage(given, "weighted"), given)(0);
    const { XX, W, x } = textbook(flows.map((flow) => flow ** 2));
    const meanX = sum(flows.map((flow, i) => flow ** 2 * x[i]!)) / W;
    rows.forEach((row, i) => near(row.exponentToFlow, (flows[i]! ** 2 * (x[i]! - meanX)) / XX));
  });

  test("all pressures wrong alike: ln q_p moves by −n, whatever the flows weigh, and n not at all", () => {
    const given = uncertainReadings(pressures, flows, { flow: known.flow });
    const fit = fitLeakage(given, "weighted");
    const rows = readingSensitivities(fit, given)(Math.log(50));
    near(sum(rows.map(({ flowToPressure }) => flowToPressure)), -fit.exponent);
    near(sum(rows.map(({ flowToFlow }) => flowToFlow)), 1);
    expect(Math.abs(sum(rows.map(({ exponentToPressure }) => exponentToPressure)))).toBeLessThan(1e-12);
  });
});
