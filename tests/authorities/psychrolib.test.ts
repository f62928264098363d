import psychrolib from "psychrolib";
import { describe, expect, test } from "vitest";
import { airDensity, barometricPressure } from "../../src/core";
import { expectAgreement, relativeDifference } from "./support/compare";

psychrolib.SetUnitSystem(psychrolib.SI);

function libraryDensity(temperature: number, pressure: number, humidity: number): number {
  return psychrolib.GetMoistAirDensity(
    temperature,
    psychrolib.GetHumRatioFromRelHum(temperature, humidity, pressure),
    pressure,
  );
}

const pressures = [70000, 90000, 101325];
const humidities = [0.01, 0.3, 0.5, 0.8, 1];

describe("PsychroLib (ASHRAE Fundamentals 2017 ch. 1) as a second check of the air", () => {
  test.each([1, 5, 10, 15, 20, 25, 30, 35])("density of moist air at %d °C", (temperature) => {
    for (const pressure of pressures) {
      for (const humidity of humidities) {
        const actual = airDensity({ temperature, pressure, humidity });
        const because =
          "gas constant 287.042 instead of 287.055 is 4.5e-5; the saturation formulas differ by 0.02 % of the vapour";
        expectAgreement(actual, libraryDensity(temperature, pressure, humidity), 1e-4, because);
      }
    }
  });

  test.each([-20, -15, -10, -5])(
    "density of moist air at %d °C, where the library saturates over ice",
    (temperature) => {
      for (const pressure of pressures) {
        for (const humidity of humidities) {
          const actual = airDensity({ temperature, pressure, humidity });
          const because = "over ice saturation is up to 20 % lower than over water, which is 1.5e-4 of the density";
          expectAgreement(actual, libraryDensity(temperature, pressure, humidity), 2.5e-4, because);
        }
      }
    },
  );

  test("a difference of 4.5e-5 stays: the library is another formula, not the same one twice", () => {
    const actual = airDensity({ temperature: 20, pressure: 101325, humidity: 0.5 });
    expect(relativeDifference(actual, libraryDensity(20, 101325, 0.5))).toBeGreaterThan(2e-5);
  });

  test.each([-400, 0, 250, 1000, 2240, 4800])("barometric pressure at %d m", (altitude) => {
    const because = "both write out eqn. 3 of the same chapter, so that only the last digits may differ";
    expectAgreement(barometricPressure(altitude), psychrolib.GetStandardAtmPressure(altitude), 1e-5, because);
  });
});
