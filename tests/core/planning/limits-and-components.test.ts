import { describe, expect, test } from "vitest";
import { allowedLeakage, areaFlow, componentLeakage, leakageAreaTerms } from "../../../src/core";
import { refuses } from "../refusals";

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
