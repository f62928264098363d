import { describe, expect, test } from "vitest";
import { allowedLeakage, areaFlow, componentLeakage, leakageAreaTerms } from "../../../src/core";
import { refuses } from "../refusals";

const rate = { quantity: "air change rate" } as const;

const effective = leakageAreaTerms["effective 4 Pa"];

describe("allowed leakage", () => {
  refuses("invalid", [
    [
      "volume: aboveZero",
      () => allowedLeakage(3, { quantity: "per floor area" }, { floorArea: 100, volume: -1 }),
      { got: -1 },
    ],
    ["envelope area: aboveZero", () => allowedLeakage(1, rate, { volume: 400, envelopeArea: 0 }), { got: 0 }],
    ["floor area: aboveZero", () => allowedLeakage(1, rate, { volume: 400, floorArea: -2 }), { got: -2 }],
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
    ["area: aboveZero", () => areaFlow(0, effective, 0.65, 50), { got: 0 }],
    ["at: aboveZero", () => areaFlow(0.05, effective, 0.65, 0), { got: 0 }],
    ["exponent: exponent", () => areaFlow(0.05, effective, 1.2, 50), { lowest: 0.4, highest: 1.1, got: 1.2 }],
  ]);
});

describe("components", () => {
  const window = { amount: 12, leakage: 3, ratedPressure: 100, exponent: 2 / 3, row: 4 };
  refuses("invalid", [
    ["at: aboveZero", () => componentLeakage([window], 0), { got: 0 }],
    ["amounts, row 4: zeroOrMore", () => componentLeakage([{ ...window, amount: -1 }], 50), { got: -1 }],
    ["amounts, row 4: zeroOrMore", () => componentLeakage([{ ...window, amount: Infinity }], 50), { got: Infinity }],
    ["leakages, row 4: aboveZero", () => componentLeakage([{ ...window, leakage: 0 }], 50), { got: 0 }],
    [
      "rated pressures, row 4: aboveZero",
      () => componentLeakage([{ ...window, ratedPressure: -50 }], 50),
      { got: -50 },
    ],
    [
      "exponents, row 4: exponent",
      () => componentLeakage([{ ...window, exponent: 0.3 }], 50),
      { lowest: 0.4, highest: 1.1, got: 0.3 },
    ],
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
