import { describe, expect, test } from "vitest";
import {
  fitLeakage,
  influences,
  priorSensitivity,
  standardErrorOfLogFlow,
  type LeakageFit,
} from "../../../../src/core";
import { readings, uncertainReadings, type ReadingErrors } from "../../../authorities/support/leakage";
import { flows, known, ln, near, pressures, sum, textbook } from "./readings";

const technique = "weighted with expected exponent";
const fitTo = (errors: ReadingErrors, q: readonly number[] = flows) =>
  fitLeakage(uncertainReadings(pressures, q, errors), technique);

/** The fit's equations by the textbook's normal equations, under the weights that the fit's own n gives. */
function expectEquations(
  fit: LeakageFit,
  ofPressure: readonly number[],
  ofFlow: readonly number[],
  leastRatio: number,
) {
  const deviations = flows.map((q, i) => Math.hypot(ofFlow[i]! / q, (fit.exponent * ofPressure[i]!) / pressures[i]!));
  const weights = deviations.map((deviation) => deviation ** -2);
  const { slope, residuals, W, XX, x } = textbook(weights);
  const chiSquare = sum(weights.map((weight, i) => weight * residuals[i]! ** 2));
  const ratio = Math.max(leastRatio, chiSquare / 4);
  const own = ratio / XX;
  const share = own / (0.057 ** 2 + own);
  const meanX = sum(weights.map((weight, i) => weight * x[i]!)) / W;
  const meanY = sum(weights.map((weight, i) => weight * ln(flows)[i]!)) / W;
  near(fit.prior!.exponentOfReadings, slope);
  near(fit.prior!.share, share);
  near(fit.exponent, (1 - share) * slope + share * 0.65, 1e-12);
  near(fit.standardErrorOfExponent, Math.sqrt((1 - share) * own));
  near(fit.logCoefficient, meanY - fit.exponent * meanX);
  near(standardErrorOfLogFlow(fit, Math.log(4)) ** 2, ratio / W + (Math.log(4) - meanX) ** 2 * (1 - share) * own, 1e-9);
  return { chiSquare, share, own };
}

describe("readings and expected exponent together (Gelman et al. 2013, 14.8)", () => {
  test("nothing stated: 1 Pa and 1 % weigh, the scatter gives the size", () => {
    const fit = fitTo({});
    const { share, own } = expectEquations(
      fit,
      pressures.map(() => 1),
      flows.map((q) => 0.01 * q),
      0,
    );
    expect(fit).toMatchObject({ technique, degreesOfFreedom: 4, enlargement: 1 });
    expect(fit).not.toHaveProperty("chiSquare");
    // The readings' part and the prior's part of the variance.
    near(fit.standardErrorOfExponent ** 2, (1 - share) ** 2 * own + share ** 2 * 0.057 ** 2);
  });

  test("both stated: the stated sizes stand, and n has infinite degrees of freedom, until the scatter is larger", () => {
    const fit = fitTo(known);
    const { chiSquare } = expectEquations(fit, known.pressure, known.flow, 1);
    expect(chiSquare).toBeLessThan(4);
    near(fit.chiSquare!, chiSquare);
    expect(fit).toMatchObject({ degreesOfFreedom: Infinity, enlargement: 1 });

    const tenth = { pressure: known.pressure.map((u) => u / 10), flow: known.flow.map((u) => u / 10) };
    const larger = fitTo(tenth);
    const ofTenth = expectEquations(larger, tenth.pressure, tenth.flow, 1);
    expect(ofTenth.chiSquare).toBeGreaterThan(4);
    near(larger.chiSquare!, ofTenth.chiSquare);
    near(larger.enlargement, Math.sqrt(ofTenth.chiSquare / 4));
    expect(larger.degreesOfFreedom).toBe(4);
  });

  test("one stated: the other is assumed, and the scatter gives the size", () => {
    const pressuresOnly = fitTo({ pressure: known.pressure });
    expectEquations(
      pressuresOnly,
      known.pressure,
      flows.map((q) => 0.005 * q),
      0,
    );
    const flowsOnly = fitTo({ flow: known.flow });
    expectEquations(
      flowsOnly,
      pressures.map(() => 1),
      known.flow,
      0,
    );
    for (const fit of [pressuresOnly, flowsOnly]) {
      expect(fit.degreesOfFreedom).toBe(4);
      expect(fit).not.toHaveProperty("chiSquare");
    }
  });

  test("the order of the readings does not count", () => {
    const order = [3, 0, 5, 1, 4, 2];
    const pick = (values: readonly number[]) => order.map((index) => values[index]!);
    const turned = fitLeakage(readings(pick(pressures), pick(flows)), technique);
    near(turned.exponent, fitTo({}).exponent, 1e-12);
    near(turned.standardErrorOfExponent, fitTo({}).standardErrorOfExponent, 1e-10);
  });
});

describe("how much the prior weighs", () => {
  const noisy = (size: number) => pressures.map((p, i) => 30 * p ** 0.8 * Math.exp(size * [1, -2, 0, 2, 1, -2][i]!));

  test("it gives way to readings without scatter: n and its error are those of effective weights", () => {
    // u_d is some 1e-7: the prior's share is (1e-7/0.057)², what it moves n is less than 1e-11.
    const small = { pressure: pressures.map(() => 1e-7), flow: flows.map((q) => 1e-8 * q) };
    const [expected, weighted] = [technique, "weighted"].map((name) =>
      fitLeakage(uncertainReadings(pressures, noisy(1e-7), small), name as typeof technique),
    );
    near(expected!.exponent, weighted!.exponent, 1e-10);
    near(expected!.standardErrorOfExponent, weighted!.standardErrorOfExponent, 1e-8);
    expect(expected!.prior!.share).toBeLessThan(1e-10);
  });

  test("readings that say nothing of n leave 0.65 and its 0.057", () => {
    const close = [40.02, 40.01, 40, 39.99, 39.98, 39.97];
    const fit = fitLeakage(readings(close, [402, 399, 400, 401, 398, 403]), technique);
    expect(Math.abs(fit.exponent - 0.65)).toBeLessThan(1e-3);
    expect(fit.prior!.share).toBeGreaterThan(0.999);
    near(fit.standardErrorOfExponent, 0.057, 1e-3);
  });

  test("the more the readings scatter, the more it weighs", () => {
    const shares = [0, 0.001, 0.01, 0.03, 0.1, 0.3].map((size) => fitTo({}, noisy(size)).prior!.share);
    expect(shares[0]).toBeLessThan(1e-20);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.at(-1)).toBeGreaterThan(0.5);
  });

  test("sensitivity to the expected exponent: its share in n, nothing where none is expected", () => {
    const fit = fitTo({});
    const { share } = fit.prior!;
    const at50 = priorSensitivity(fit, Math.log(50));
    expect(at50.exponentToPrior).toBe(share);
    near(at50.flowToPrior, share * (Math.log(50) - fit.meanLogPressure));
    expect(priorSensitivity(fit, fit.meanLogPressure).flowToPrior).toBe(0);
    const ordinary = fitLeakage(readings(pressures, flows), "ordinary");
    expect(priorSensitivity(ordinary, Math.log(200))).toEqual({ flowToPrior: 0, exponentToPrior: 0 });
  });

  test("two readings that are left of three have no scatter: their assumed uncertainties weigh against the prior", () => {
    const three = readings([60, 40, 20], [600, 450, 310]);
    const [, , last] = influences(fitLeakage(three, technique), three, 50);
    const n = last!.exponentWithout!;
    const own = Math.log(600 / 450) / Math.log(60 / 40);
    const variance = ([p]: [number]) => 0.01 ** 2 + (n / p) ** 2;
    const ofSlope = (variance([60]) + variance([40])) / Math.log(60 / 40) ** 2;
    near(n, (0.057 ** 2 * own + ofSlope * 0.65) / (0.057 ** 2 + ofSlope));
  });
});
