import { describe } from "vitest";
import {
  airDensity,
  airViscosity,
  barometricPressure,
  densityByAltitude,
  densityOfBoth,
  relativePressureAtAltitude,
} from "../../../src/core";
import { refuses, takes } from "../refusals";

const air = { temperature: 20, pressure: 101_325, humidity: 0.5 };
const test20 = {
  temperature: { indoor: 20, outdoor: 5 },
  humidity: { indoor: 0.5, outdoor: 0.5 },
  barometricPressure: 101_325,
};

const altitude = "altitude: between −500 and 5 000 m; did you type feet?";
const barometer = "between 50 000 and 110 000 Pa; did you type hPa?";
const humidity = "a fraction between 0 and 1, 0.5 for 50 %";
const temperature = "a temperature between −60 and 70 °C; did you type °F or K?";

refuses("invalid", [
  [`${altitude} (got -501)`, () => barometricPressure(-501)],
  [`${altitude} (got 5001)`, () => barometricPressure(5001)],
  [
    "sea_level_pressure: between 85 000 and 110 000 Pa; did you type hPa? (got 1013.25)",
    () => barometricPressure(0, 1013.25),
  ],
  [`${altitude}`, () => relativePressureAtAltitude(-501)],
  [`barometric_pressure: ${barometer} (got 1013.25)`, () => airDensity({ ...air, pressure: 1013.25 })],
  [`relative_humidity: ${humidity} (got 50)`, () => airDensity({ ...air, humidity: 50 })],
  [`temperature: ${temperature} (got 293.15)`, () => airDensity({ ...air, temperature: 293.15 })],
  [`temperature: ${temperature} (got -60.5)`, () => airViscosity(-60.5)],
  [`temperature: ${temperature} (got NaN)`, () => airViscosity(NaN)],
  [`temperature: ${temperature} (got 71)`, () => densityByAltitude(71, 0)],
]);

// A number in a message is rounded for the eye.
refuses("invalid", [[`temperature: ${temperature} (got 293.123)`, () => airViscosity(293.12345678)]]);

describe("air of both sides: the error names the side, and what both share it leaves as it is", () => {
  refuses("invalid", [
    [
      `indoor_temperature: ${temperature} (got 200)`,
      () => densityOfBoth({ ...test20, temperature: { indoor: 200, outdoor: 5 } }),
    ],
    [
      `outdoor_temperature: ${temperature} (got -70)`,
      () => densityOfBoth({ ...test20, temperature: { indoor: 20, outdoor: -70 } }),
    ],
    [
      `outdoor_humidity: ${humidity} (got 80)`,
      () => densityOfBoth({ ...test20, humidity: { indoor: 0.4, outdoor: 80 } }),
    ],
    [`barometric_pressure: ${barometer} (got 760)`, () => densityOfBoth({ ...test20, barometricPressure: 760 })],
    [altitude, () => densityOfBoth({ ...test20, altitudeOfFormula: 16_000 })],
  ]);
});

takes([
  ["−500 m", () => barometricPressure(-500)],
  ["5 000 m", () => barometricPressure(5_000)],
  ["sea-level pressure of 85 000 Pa", () => barometricPressure(0, 85_000)],
  ["sea-level pressure of 110 000 Pa", () => barometricPressure(0, 110_000)],
  ["−500 m in ASTM E779's formula", () => relativePressureAtAltitude(-500)],
  ["5 000 m in ASTM E779's formula", () => relativePressureAtAltitude(5_000)],
  ["−60 °C", () => airDensity({ ...air, temperature: -60 })],
  ["70 °C", () => airDensity({ ...air, temperature: 70 })],
  ["50 000 Pa", () => airDensity({ ...air, pressure: 50_000 })],
  ["110 000 Pa", () => airDensity({ ...air, pressure: 110_000 })],
  ["dry air", () => airDensity({ ...air, humidity: 0 })],
  ["saturated air", () => airDensity({ ...air, humidity: 1 })],
]);
