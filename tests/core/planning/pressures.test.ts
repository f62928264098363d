import { describe, expect, test } from "vitest";
import { pressureStations, stackPressure, windPressure } from "../../../src/core";
import { refuses, takes } from "../refusals";

describe("pressures to set", () => {
  const range = { lowest: 10, highest: 60, count: 6 };
  const count = (got: number | string) => `count: a whole number from 2 to 1000 (got ${got})`;
  const above = (lowest: number, shift: number) => `baseline: ${lowest} Pa does not exceed the baseline of ${shift} Pa`;
  refuses("invalid", [
    ["lowest: must be above 0 (got 0)", () => pressureStations({ ...range, lowest: 0 })],
    ["highest: must be above 0 (got -60)", () => pressureStations({ ...range, highest: -60 })],
    ["highest: must be above the lowest, 10 Pa (got 10)", () => pressureStations({ ...range, highest: 10 })],
    [count(1), () => pressureStations({ ...range, count: 1 })],
    [count(1001), () => pressureStations({ ...range, count: 1001 })],
    [count(5.5), () => pressureStations({ ...range, count: 5.5 })],
    [above(10, 10), () => pressureStations(range, "depressurization", 10)],
    [above(10, -10), () => pressureStations(range, "pressurization", -10)],
  ]);
  refuses("missing", [
    [
      "direction: the sign of the pressures is needed to add the baseline",
      () => pressureStations(range, undefined, -2),
    ],
  ]);
  takes([
    ["2 stations", () => pressureStations({ ...range, count: 2 })[1]],
    ["1 000 stations", () => pressureStations({ ...range, count: 1000 })[999]],
  ]);

  test("equal steps from the highest to exactly the lowest; the gauge adds the baseline", () => {
    expect(pressureStations(range).map(({ induced }) => induced)).toEqual([60, 50, 40, 30, 20, 10]);
    expect(pressureStations({ lowest: 0.1, highest: 0.7, count: 4 }).at(-1)).toEqual({ induced: 0.1, displayed: 0.1 });
    expect(pressureStations({ ...range, count: 2 }, "depressurization", -2)).toEqual([
      { induced: -60, displayed: -62 },
      { induced: -10, displayed: -12 },
    ]);
    expect(pressureStations({ ...range, count: 2 }, "depressurization", 9)[1]).toEqual({ induced: -10, displayed: -1 });
    expect(pressureStations({ ...range, count: 2 }, "pressurization")[0]).toEqual({ induced: 60, displayed: 60 });
  });
});

describe("pressures that nature makes", () => {
  const winter = { indoor: 20, outdoor: -10 };
  const degrees = "a temperature between −60 and 70 °C; did you type °F or K?";
  refuses("invalid", [
    ["height: must be above 0 (got 0)", () => stackPressure({ height: 0 }, winter)],
    [
      "measuring_height: between the ground and the height (got 7)",
      () => stackPressure({ height: 6, measuring: 7 }, winter),
    ],
    [
      "measuring_height: between the ground and the height (got -1)",
      () => stackPressure({ height: 6, measuring: -1 }, winter),
    ],
    [
      "neutral_height: not further from the building than its height (got -6.1)",
      () => stackPressure({ height: 6, neutral: -6.1 }, winter),
    ],
    [
      "neutral_height: not further from the building than its height (got 12.1)",
      () => stackPressure({ height: 6, neutral: 12.1 }, winter),
    ],
    [`indoor_temperature: ${degrees} (got 293)`, () => stackPressure({ height: 6 }, { indoor: 293, outdoor: 0 })],
    [`outdoor_temperature: ${degrees} (got -61)`, () => stackPressure({ height: 6 }, { indoor: 20, outdoor: -61 })],
    ["speed: between 0 and 100 m/s (got -1)", () => windPressure(-1)],
    ["speed: between 0 and 100 m/s (got 101)", () => windPressure(101)],
  ]);
  takes([
    ["measured at the top", () => stackPressure({ height: 6, measuring: 6 }, winter)],
    ["neutral a height below the ground", () => stackPressure({ height: 6, neutral: -6 }, winter)],
    ["neutral a height above the top", () => stackPressure({ height: 6, neutral: 12 }, winter)],
    ["no wind", () => windPressure(0)],
    ["100 m/s", () => windPressure(100)],
  ]);

  test("by hand: 6 m high, 20 °C against −10 °C, at the ground and at 2 m (hydrostatics)", () => {
    const density = 101_325 / (287.055 * 263.15);
    expect(stackPressure({ height: 6 }, winter)).toBeCloseTo((-density * 9.80665 * 3 * 30) / 293.15, 10);
    expect(stackPressure({ height: 6, measuring: 2, neutral: 1 }, winter)).toBeCloseTo(
      (density * 9.80665 * 1 * 30) / 293.15,
      10,
    );
    expect(windPressure(3)).toBeCloseTo(0.5 * 1.2041 * 9, 12);
  });
});
