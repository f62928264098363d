import { describe, expect, test } from "vitest";
import {
  allowedLeakage,
  areaFlow,
  componentLeakage,
  fanDemand,
  fittingOpening,
  leakageAreaTerms,
  pressureStations,
  stackPressure,
  windPressure,
  type Opening,
} from "../../../src/core";
import { refuses, takes } from "../refusals";

const rate = { quantity: "air change rate" } as const;
const effective = leakageAreaTerms["effective 4 Pa"];
const exponent = (argument: string) => `${argument}: from 0.5 to 1, with some margin`;

describe("allowed leakage", () => {
  refuses("invalid", [
    [
      "volume: must be above 0 (got -1)",
      () => allowedLeakage(3, { quantity: "per floor area" }, { floorArea: 100, volume: -1 }),
    ],
    ["envelope area: must be above 0 (got 0)", () => allowedLeakage(1, rate, { volume: 400, envelopeArea: 0 })],
    ["floor area: must be above 0 (got -2)", () => allowedLeakage(1, rate, { volume: 400, floorArea: -2 })],
  ]);

  test("per size where the size is given, undefined where not", () => {
    expect(allowedLeakage(1, rate, { volume: 400 })).toMatchObject({
      at50: 400,
      airChangeRate: 1,
      perEnvelopeArea: undefined,
      perFloorArea: undefined,
    });
    const all = allowedLeakage(1, { ...rate, pressure: 10 }, { volume: 400, envelopeArea: 800, floorArea: 200 }, 0.5);
    expect(all.atTargetPressure).toBe(400);
    expect(all.at50).toBeCloseTo(400 * Math.sqrt(5), 9);
    expect(all.perEnvelopeArea).toBeCloseTo(all.at50 / 800, 12);
    expect(all.perFloorArea).toBeCloseTo(all.at50 / 200, 12);
    expect(all.leakageAreas["effective 4 Pa"]).toBeCloseTo((400 * Math.sqrt(0.4)) / 3600 / Math.sqrt(8 / 1.2041), 12);
    expect(all.leakageAreas["equivalent 10 Pa"]).toBeCloseTo(400 / 3600 / 0.611 / Math.sqrt(20 / 1.2041), 12);
  });
});

describe("flow of an area", () => {
  refuses("invalid", [
    ["area: must be above 0 (got 0)", () => areaFlow(0, effective, 0.65, 50)],
    ["at: must be above 0 (got 0)", () => areaFlow(0.05, effective, 0.65, 0)],
    [`${exponent("exponent")} (got 1.2)`, () => areaFlow(0.05, effective, 1.2, 50)],
  ]);
});

describe("components", () => {
  const window = { amount: 12, leakage: 3, ratedPressure: 100, exponent: 2 / 3, row: 4 };
  refuses("invalid", [
    ["at: must be above 0 (got 0)", () => componentLeakage([window], 0)],
    ["amounts, row 4: must not be below 0 (got -1)", () => componentLeakage([{ ...window, amount: -1 }], 50)],
    [
      "amounts, row 4: must not be below 0 (got Infinity)",
      () => componentLeakage([{ ...window, amount: Infinity }], 50),
    ],
    ["leakages, row 4: must be above 0 (got 0)", () => componentLeakage([{ ...window, leakage: 0 }], 50)],
    [
      "rated_pressures, row 4: must be above 0 (got -50)",
      () => componentLeakage([{ ...window, ratedPressure: -50 }], 50),
    ],
    [`${exponent("exponents, row 4")} (got 0.3)`, () => componentLeakage([{ ...window, exponent: 0.3 }], 50)],
  ]);

  test("none of a kind adds nothing, nor do no components", () => {
    expect(componentLeakage([{ ...window, amount: 0 }], 50)).toBe(0);
    expect(componentLeakage([], 50)).toBe(0);
    expect(componentLeakage([window, { ...window, amount: 1, exponent: 0.5, ratedPressure: 25 }], 100)).toBeCloseTo(
      36 + 6,
      12,
    );
  });
});

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

describe("what the fan must give", () => {
  const air = {
    temperature: { indoor: 20, outdoor: 20 },
    humidity: { indoor: 0, outdoor: 0 },
    barometricPressure: 101_325,
  };
  const device = { standard: "ISO 9972", calibrationDensity: 1.2041 } as const;
  const opening = (name: string, row: number, coefficient: number, lowest?: number): Opening => ({
    name,
    row,
    coefficient,
    exponent: 0.5,
    highest: 400,
    ...(lowest !== undefined && { lowest }),
  });
  const openings = [opening("wide", 1, 50, 25), opening("middle", 2, 16, 25), opening("narrow", 3, 2, 25)];
  refuses("invalid", [
    [
      "highest: must be above 0 (got 0)",
      () => fanDemand({ at50: 400, exponent: 0.65 }, 0, "depressurization", air, device),
    ],
    [
      "target: must be above 0 (got 0)",
      () => fanDemand({ at50: 0, exponent: 0.65 }, 60, "depressurization", air, device),
    ],
    [
      "openings, row 2: must be above 0 (got 0)",
      () => fittingOpening(300, [openings[0]!, { ...openings[1]!, highest: 0 }]),
    ],
    ["openings, row 1: must be above 0 (got -1)", () => fittingOpening(300, [opening("odd", 1, -1)])],
  ]);
  refuses("missing", [["openings: no opening is given yet", () => fittingOpening(300, [])]]);

  test("of the openings that reach the flow, the one with the highest fan pressure", () => {
    // q = c·√f: 300 m³/h is 36 Pa in the wide opening, 351.6 Pa in the middle one.
    expect(fittingOpening(300, openings)).toMatchObject({ opening: { name: "middle" } });
    expect(fittingOpening(300, [...openings].reverse())).toMatchObject({ opening: { name: "middle" } });
    const { fanPressure } = fittingOpening(300, openings) as { fanPressure: number };
    expect(fanPressure).toBeCloseTo((300 / 16) ** 2, 9);
    expect(fittingOpening(320, openings)).toMatchObject({ opening: { name: "middle" } });
    expect(fittingOpening(0.001, [opening("open end", 1, 50)])).toMatchObject({ opening: { name: "open end" } });
  });

  test("where none does, on which side the flow lies", () => {
    expect(fittingOpening(1001, openings)).toBe("above");
    expect(fittingOpening(9.9, openings)).toBe("below");
    expect(fittingOpening(60, openings)).toBe("between");
  });

  test("reference conditions on both sides: the fan gives q50·(p/50)^n, whichever way it blows", () => {
    for (const direction of ["depressurization", "pressurization"] as const) {
      const demand = fanDemand({ at50: 400, exponent: 0.6 }, 60, direction, air, {
        ...device,
        calibrationDensity: 1.204096,
      });
      const expected = 400 * 1.2 ** 0.6;
      for (const flow of Object.values(demand) as number[]) expect(Math.abs(flow / expected - 1)).toBeLessThan(1e-5);
    }
  });
});
