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

refuses("invalid", [
  ["altitude: altitude", () => barometricPressure(-501), { lowest: -500, highest: 5000, got: -501 }],
  ["altitude: altitude", () => barometricPressure(5001), { lowest: -500, highest: 5000, got: 5001 }],
  [
    "sea level pressure: barometer",
    () => barometricPressure(0, 1013.25),
    { lowest: 85000, highest: 110000, got: 1013.25 },
  ],
  ["altitude: altitude", () => relativePressureAtAltitude(-501), { lowest: -500, highest: 5000, got: -501 }],
  [
    "barometric pressure: barometer",
    () => airDensity({ ...air, pressure: 1013.25 }),
    { lowest: 50000, highest: 110000, got: 1013.25 },
  ],
  ["relative humidity: fraction", () => airDensity({ ...air, humidity: 50 }), { got: 50 }],
  [
    "temperature: temperature",
    () => airDensity({ ...air, temperature: 293.15 }),
    { lowest: -60, highest: 70, got: 293.15 },
  ],
  ["temperature: temperature", () => airViscosity(-60.5), { lowest: -60, highest: 70, got: -60.5 }],
  ["temperature: temperature", () => airViscosity(NaN), { lowest: -60, highest: 70, got: NaN }],
  ["temperature: temperature", () => densityByAltitude(71, 0), { lowest: -60, highest: 70, got: 71 }],
]);

// A number in a message is rounded for the eye.
refuses("invalid", [
  ["temperature: temperature", () => airViscosity(293.12345678), { lowest: -60, highest: 70, got: 293.12345678 }],
]);

describe("air of both sides: the error names the side, and what both share it leaves as it is", () => {
  refuses("invalid", [
    [
      "indoor temperature: temperature",
      () => densityOfBoth({ ...test20, temperature: { indoor: 200, outdoor: 5 } }),
      { lowest: -60, highest: 70, got: 200 },
    ],
    [
      "outdoor temperature: temperature",
      () => densityOfBoth({ ...test20, temperature: { indoor: 20, outdoor: -70 } }),
      { lowest: -60, highest: 70, got: -70 },
    ],
    [
      "outdoor humidity: fraction",
      () => densityOfBoth({ ...test20, humidity: { indoor: 0.4, outdoor: 80 } }),
      { got: 80 },
    ],
    [
      "barometric pressure: barometer",
      () => densityOfBoth({ ...test20, barometricPressure: 760 }),
      { lowest: 50000, highest: 110000, got: 760 },
    ],
    [
      "altitude: altitude",
      () => densityOfBoth({ ...test20, altitudeOfFormula: 16_000 }),
      { lowest: -500, highest: 5000, got: 16000 },
    ],
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
