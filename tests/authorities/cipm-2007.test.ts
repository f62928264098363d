import { describe, expect, test } from "vitest";
import { airDensity } from "../../src/core";
import recorded from "./cipm-2007/densities.json";
import { cipmDensity } from "./cipm-2007/formula";
import { expectAgreement, expectPrinted, relativeDifference } from "./support/compare";

describe.each(recorded)("CIPM-2007 at $temperature_C °C, $pressure_Pa Pa, humidity $humidity", (point) => {
  const metrologists = cipmDensity(point.temperature_C, point.pressure_Pa, point.humidity);
  const ours = airDensity({ temperature: point.temperature_C, pressure: point.pressure_Pa, humidity: point.humidity });

  test("the formula as implemented here gives the recorded density", () => {
    expectPrinted(metrologists.density, point.density_kg_per_m3, 6);
  });

  test("the core agrees within 0.05 %: it takes air for an ideal gas", () => {
    expectAgreement(ours, point.density_kg_per_m3, 5e-4, "an ideal gas has no compressibility factor, 0.99964 here");
    expect(relativeDifference(ours, point.density_kg_per_m3)).toBeGreaterThan(3e-4);
  });

  test("compressibility and gas constant explain the difference", () => {
    const explained = (ours / metrologists.compressibility) * (287.055 / metrologists.gasConstant);
    const rest = point.humidity === 0 ? 1e-12 : 3e-5;
    expectAgreement(
      explained,
      metrologists.density,
      rest,
      "what is left is the vapour: its enhancement factor is 1.004",
    );
  });
});

test("CIPM-2007 and the core stay within 0.1 % over the weather of tests, −20 to 35 °C", () => {
  for (let temperature = -20; temperature <= 35; temperature += 5) {
    for (const pressure of [70000, 85000, 101325, 104000]) {
      for (const humidity of [0, 0.5, 1]) {
        const { density } = cipmDensity(temperature, pressure, humidity);
        const ours = airDensity({ temperature, pressure, humidity });
        expectAgreement(ours, density, 1e-3, "compressibility grows to 0.07 % in cold dense air");
      }
    }
  }
});
