import { describe, test } from "vitest";
import { airDensity, barometricPressure } from "../../src/core";
import { expectAgreement, expectPrinted } from "./support/compare";
import { authorityTable, numbers } from "./support/files";

const ashrae = authorityTable("standard-atmosphere/ashrae_table_1.csv");
const atmosphere = authorityTable("standard-atmosphere/us_standard_atmosphere_1976.csv");
const altitudes = numbers(atmosphere, "altitude_m");
const temperatures = numbers(atmosphere, "temperature_K");
const pressures = numbers(atmosphere, "pressure_bar");
const densities = numbers(atmosphere, "density_kg_per_m3");
const rows = altitudes.map((altitude, index) => ({
  altitude,
  temperature: temperatures[index] ?? NaN,
  pressure: 1e5 * (pressures[index] ?? NaN),
  density: densities[index] ?? NaN,
}));

describe("ASHRAE Fundamentals 2021 ch. 1 table 1: pressure over altitude", () => {
  const kiloPascals = numbers(ashrae, "pressure_kPa");
  test.each(numbers(ashrae, "altitude_m").map((altitude, index) => [altitude, kiloPascals[index] ?? NaN]))(
    "%d m: %d kPa",
    (altitude, printed) => {
      expectPrinted(barometricPressure(altitude) / 1000, printed, 3);
    },
  );
});

describe("US Standard Atmosphere 1976", () => {
  test.each(rows)("pressure at $altitude m, which the table takes as geometric", ({ altitude, pressure }) => {
    // The formula is exact in geopotential altitude; at 5 000 m the two differ by 4 m, and taking one for the other costs 0.056 %.
    const earthRadius = 6356766;
    const geopotential = (earthRadius * altitude) / (earthRadius + altitude);
    expectAgreement(
      barometricPressure(geopotential),
      pressure,
      1.1e-4,
      "the table has four decimals of a bar, 0.5 to 1",
    );
    expectAgreement(barometricPressure(altitude), pressure, 6e-4, "geometric for geopotential altitude");
  });

  test.each(rows)("density at $altitude m, dry", ({ temperature, pressure, density }) => {
    const actual = airDensity({ temperature: temperature - 273.15, pressure, humidity: 0 });
    expectAgreement(actual, density, 1.7e-4, "half units of pressure and density add to 1.6e-4 at 5 000 m, R to 1e-5");
  });
});
