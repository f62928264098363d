import { describe, expect, test } from "vitest";
import { airDensity, densityByAltitude, densityOfBoth, relativePressureAtAltitude } from "../../src/core";
import { referenceCoefficient as referenceCoefficientCell, testResult } from "../../src/functions";
import { expectAgreement } from "./support/compare";
import { authorityTable, numbers } from "./support/files";
import { block, column, valueOf } from "./support/sheet";
import type { Cell } from "./support/sheet";

const atmosphere = authorityTable("standard-atmosphere/us_standard_atmosphere_1976.csv");
const [altitudes, temperatures, densities] = ["altitude_m", "temperature_K", "density_kg_per_m3"].map((name) =>
  numbers(atmosphere, name),
) as [number[], number[], number[]];

describe("ASTM E779's own density of air (from memory) against the US Standard Atmosphere 1976", () => {
  test.each(altitudes.map((altitude, index) => [altitude, temperatures[index]! - 273.15, densities[index]!] as const))(
    "at %d m and %d °C: %d kg/m³ within 0.1 % and 0.25 % a kilometre",
    (altitude, temperature, published) => {
      // The formula takes 293 K for the sea level where the atmosphere has 288.15 K: its pressure falls more slowly, by 0.2 % in the first kilometre.
      const because = "the formula's air column is 5 K warmer, and its zero is 273 K";
      expectAgreement(densityByAltitude(temperature, altitude), published, 1e-3 + (2.5e-3 * altitude) / 1000, because);
    },
  );

  test("at sea level and 20 °C it is the reference density itself, and dry air within 0.01 %", () => {
    expect(densityByAltitude(20, 0)).toBe(1.2041);
    expectAgreement(
      densityByAltitude(20, 0),
      airDensity({ temperature: 20, pressure: 101325, humidity: 0 }),
      1e-4,
      "the formula's constant has five digits",
    );
  });

  test("worked by hand: 500 m and 0 °C", () => {
    // 1 − 0.0065·500/293 = 0.98890785; ln = −0.01115413; ×5.2553 = −0.05861830; exp = 0.94306668; ×1.2041×293/273 = 1.21873…
    expectAgreement(relativePressureAtAltitude(500), 0.9430667, 1e-6, "seven digits by hand");
    expectAgreement(densityByAltitude(0, 500), 1.218737, 2e-6, "seven digits by hand");
  });

  test("refuses what is no altitude or temperature of a test", () => {
    expect(() => densityByAltitude(20, 6000)).toThrow(expect.objectContaining({ term: "altitude" }));
    expect(() => densityByAltitude(20, NaN)).toThrow(expect.objectContaining({ term: "altitude" }));
    expect(() =>
      densityOfBoth({
        temperature: { indoor: 20, outdoor: 300 },
        humidity: { indoor: 0.5, outdoor: 0.5 },
        barometricPressure: 101325,
        altitudeOfFormula: 0,
      }),
    ).toThrow(expect.objectContaining({ term: "outdoor temperature" }));
  });
});

describe('the setting "air density"', () => {
  const settings: Record<string, Cell> = {
    volume: 400,
    "flow basis": "actual at the fan",
    "indoor temperature": 20,
    "outdoor temperature": 0,
    standard: "ASTM E779",
    altitude: 500,
  };
  const run = (further: Record<string, Cell>) =>
    testResult(
      "depressurization",
      column([-60, -50, -40, -30, -20]),
      column([272, 240, 208, 173, 133]),
      column([0, 0]),
      column([0, 0]),
      block({ ...settings, ...further }),
    ) as unknown[][];

  test("moist air is the default; E779's formula only where asked for", () => {
    expect(run({})).toEqual(run({ "air density": "moist air" }));
    const table = run({ "air density": "ASTM E779" });
    expect(valueOf(table, "rho_e")).toBe(densityByAltitude(0, 500));
    expect(valueOf(table, "rho_i")).toBe(densityByAltitude(20, 500));
    expect(valueOf(table, "rho_e")).not.toBe(valueOf(run({}), "rho_e"));
    expect(valueOf(table, "k_q")).toBe(densityByAltitude(20, 500) / densityByAltitude(0, 500));
  });

  test("says where the pressure comes from, and that one that was read does not count", () => {
    const row = (further: Record<string, Cell>) => run(further).find((cells) => cells[1] === "p_bar");
    const asked = { "air density": "ASTM E779" };
    expect(row(asked)?.[0]).toBe("barometric pressure, from the altitude by ASTM E779");
    expect(row({ ...asked, "barometric pressure": 95000 })?.[0]).toMatch(/by ASTM E779; the one read does not count$/);
    expect(valueOf(run({ ...asked, "barometric pressure": 95000 }), "n50")).toBe(valueOf(run(asked), "n50"));
    expect(run(asked).find((cells) => cells[1] === "rho_i")?.[6]).toBe("ASTM E779-19, air density from the altitude");
  });

  test("needs the altitude", () => {
    expect(() => run({ "air density": "ASTM E779", altitude: "" })).toThrow(
      expect.objectContaining({ code: "#N/A", message: 'settings: "altitude" is not given yet' }),
    );
  });

  test("counts in REFERENCECOEFFICIENT too", () => {
    const at = (further: Record<string, Cell>) =>
      referenceCoefficientCell(
        [[40]],
        [[0.65]],
        "depressurization",
        [[20]],
        [[0]],
        block({ altitude: 500, ...further }),
      );
    const density = densityByAltitude(0, 500);
    expectAgreement(
      Number(at({ "air density": "ASTM E779" })[0]?.[0]),
      40 * (density / 1.2041) ** 0.35,
      1e-13,
      "the same formula written out",
    );
  });
});
