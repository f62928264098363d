import { describe, expect, test } from "vitest";
import { leakageArea } from "../../src/core";
import source from "./ashrae-leakage-areas/examples.json";
import { expectAgreement, expectPrinted } from "./support/compare";

/** cm² by the core, brought to the density that the examples use. */
function areaAtSourceDensity(coefficient: number, exponent: number): number {
  const terms = { pressure: source.reference_pressure_Pa, dischargeCoefficient: source.discharge_coefficient };
  const area = 1e4 * leakageArea(coefficient * 3600, exponent, terms);
  return area * Math.sqrt(source.density_kg_per_m3 / 1.2041);
}

describe("ASHRAE Fundamentals 2021 ch. 16: effective leakage area of a leakage curve", () => {
  test.each(source.examples)("c = $c_m3_per_s_Pa_n, n = $n", ({ c_m3_per_s_Pa_n, n, recomputed_cm2 }) => {
    expectPrinted(areaAtSourceDensity(c_m3_per_s_Pa_n, n), recomputed_cm2, recomputed_cm2 === 500 ? 1 : 0);
  });

  test("the examples print them to the nearest ten", () => {
    for (const { c_m3_per_s_Pa_n, n, ELA4_cm2 } of source.examples) {
      expect(Math.abs(areaAtSourceDensity(c_m3_per_s_Pa_n, n) - ELA4_cm2)).toBeLessThanOrEqual(5);
    }
  });

  test("the core's own density of 1.2041 makes the area 0.17 % larger", () => {
    const [first] = source.examples;
    if (!first) throw new Error("no example");
    const terms = { pressure: 4, dischargeCoefficient: 1 };
    const area = 1e4 * leakageArea(first.c_m3_per_s_Pa_n * 3600, first.n, terms);
    expectAgreement(area / areaAtSourceDensity(first.c_m3_per_s_Pa_n, first.n), 1.001707, 1e-6, "√(1.2041/1.2)");
  });
});
