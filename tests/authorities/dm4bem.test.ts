import { describe, expect, test } from "vitest";
import { fitLeakage, leakageArea, leakageFlow } from "../../src/core";
import { stackPressure } from "../../src/functions";
import source from "./dm4bem/readings.json";
import stack from "./dm4bem/stack.json";
import { expectPrinted, relativeDifference } from "./support/compare";
import { readings } from "./support/leakage";
import { single } from "./support/sheet";

const { published } = source;
const fit = fitLeakage(readings(source.pressures_Pa, source.flows_m3_per_h), "ordinary");

describe("dm4bem, tutorial A06: a worked blower door test", () => {
  test("exponent, coefficient and r² are those printed", () => {
    expectPrinted(fit.exponent, published.n, 4);
    expectPrinted(fit.coefficient, published.K_m3_per_h_Pa_n, 4);
    expectPrinted(fit.determination, published.r2, 4);
  });

  test("standard errors are those printed: of n, and of K as K times that of ln K", () => {
    expectPrinted(fit.standardErrorOfExponent, published.standard_error_n, 4);
    expectPrinted(fit.coefficient * fit.standardErrorOfLogCoefficient, published.standard_error_K, 4);
  });

  test("an older printing's standard error of K, made with the slope's by mistake, is not reproduced", () => {
    const actual = fit.coefficient * fit.standardErrorOfLogCoefficient;
    expect(relativeDifference(actual, source.superseded.standard_error_K)).toBeGreaterThan(0.1);
  });

  test("flow at 10 Pa is the one printed", () => {
    expectPrinted(leakageFlow(fit.coefficient, fit.exponent, 10), published.V10_m3_per_h, 1);
  });

  test("leakage area at 10 Pa is the one printed, once the source's density of 1.2 kg/m³ replaces 1.2041", () => {
    const terms = { pressure: 10, dischargeCoefficient: source.discharge_coefficient };
    const area = 1e4 * leakageArea(fit.coefficient, fit.exponent, terms);
    const asPrinted = area * Math.sqrt(source.density_of_the_published_area_kg_per_m3 / 1.2041);
    expectPrinted(asPrinted, published.ELA10_cm2, 1);
    expectPrinted(Math.sqrt((4 * asPrinted) / Math.PI), published.equivalent_diameter_cm, 1);
  });
});

describe("dm4bem, tutorial A05: the stack of a house", () => {
  const { height_m: height, indoor, outdoor, stack_Pa: printed } = stack;
  const stackOf = (...humidities: number[][][]) =>
    single(
      stackPressure(
        [[height]],
        [[indoor.temperature_C]],
        [[outdoor.temperature_C]],
        [[height]],
        [[0]],
        undefined,
        ...humidities,
      ),
    );

  test("moist air on both sides gives the pressure printed", () => {
    expect(relativeDifference(stackOf([[indoor.humidity]], [[outdoor.humidity]]), printed)).toBeLessThan(0.008);
  });

  test("dry air on both sides is 3 % below it", () => {
    expect(relativeDifference(stackOf(), printed)).toBeGreaterThan(0.025);
  });
});
