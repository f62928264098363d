import { describe, expect, test } from "vitest";
import { pressureStations, stackPressure, windPressure } from "../../../src/core";
import { refuses, takes } from "../refusals";

describe("pressures to set", () => {
  const range = { lowest: 10, highest: 60, count: 6 };
  refuses("invalid", [
    ["lowest: aboveZero", () => pressureStations({ ...range, lowest: 0 }), { got: 0 }],
    ["highest: aboveZero", () => pressureStations({ ...range, highest: -60 }), { got: -60 }],
    ["highest: highestNotAbove", () => pressureStations({ ...range, highest: 10 }), { lowest: 10, got: 10 }],
    ["count: wholeNumber", () => pressureStations({ ...range, count: 1 }), { lowest: 2, highest: 1000, got: 1 }],
    ["count: wholeNumber", () => pressureStations({ ...range, count: 1001 }), { lowest: 2, highest: 1000, got: 1001 }],
    ["count: wholeNumber", () => pressureStations({ ...range, count: 5.5 }), { lowest: 2, highest: 1000, got: 5.5 }],
    ["baseline: belowBaseline", () => pressureStations(range, "depressurization", 10), { pressure: 10, baseline: 10 }],
    ["baseline: belowBaseline", () => pressureStations(range, "pressurization", -10), { pressure: 10, baseline: -10 }],
  ]);
  refuses("missing", [["direction: notGiven", () => pressureStations(range, undefined, -2)]]);
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
  refuses("invalid", [
    ["height: aboveZero", () => stackPressure({ height: 0 }, winter), { got: 0 }],
    [
      "measuring height: measuringHeight",
      () => stackPressure({ height: 6, measuring: 7 }, winter),
      { lowest: 0, highest: 6, got: 7 },
    ],
    [
      "measuring height: measuringHeight",
      () => stackPressure({ height: 6, measuring: -1 }, winter),
      { lowest: 0, highest: 6, got: -1 },
    ],
    [
      "neutral height: neutralHeight",
      () => stackPressure({ height: 6, neutral: -6.1 }, winter),
      { lowest: -6, highest: 12, got: -6.1 },
    ],
    [
      "neutral height: neutralHeight",
      () => stackPressure({ height: 6, neutral: 12.1 }, winter),
      { lowest: -6, highest: 12, got: 12.1 },
    ],
    [
      "indoor temperature: temperature",
      () => stackPressure({ height: 6 }, { indoor: 293, outdoor: 0 }),
      { lowest: -60, highest: 70, got: 293 },
    ],
    [
      "outdoor temperature: temperature",
      () => stackPressure({ height: 6 }, { indoor: 20, outdoor: -61 }),
      { lowest: -60, highest: 70, got: -61 },
    ],
    ["speed: windSpeed", () => windPressure(-1), { lowest: 0, highest: 100, got: -1 }],
    ["speed: windSpeed", () => windPressure(101), { lowest: 0, highest: 100, got: 101 }],
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
