import { describe, expect, test } from "vitest";
import type { infiltrationModels } from "../../../src/core";
import { heatLoss, infiltrationFlow, type InfiltrationTerms } from "../../../src/core";
import { refuses, takes } from "../refusals";

const terms: InfiltrationTerms = {
  flow: 1000,
  exponent: 0.65,
  "temperature difference": 20,
  "wind speed": 4,
  storeys: 2,
  "shelter class": 3,
  flue: "no",
  foundation: "basement or slab",
  "exposed sides": "several",
  shielding: "moderate",
  "floor area": 150,
  "building height": 5,
  "weather and shielding factor": 0.6,
};
const flow = (model: (typeof infiltrationModels)[number], change: Partial<InfiltrationTerms> = {}) =>
  infiltrationFlow(model, { ...terms, ...change });
function without(model: (typeof infiltrationModels)[number], name: keyof InfiltrationTerms) {
  const left = Object.fromEntries(Object.entries(terms).filter(([key]) => key !== name));
  return () => infiltrationFlow(model, left as unknown as InfiltrationTerms);
}

describe("infiltration", () => {
  refuses("missing", [
    ["temperature difference: notGiven", without("basic", "temperature difference")],
    ["wind speed: notGiven", without("basic", "wind speed")],
    ["storeys: notGiven", without("basic", "storeys")],
    ["shelter class: notGiven", without("basic", "shelter class")],
    ["flue: notGiven", without("enhanced", "flue")],
    ["foundation: notGiven", without("enhanced", "foundation")],
    ["storeys: notGiven", without("enhanced", "storeys")],
    ["shelter class: notGiven", without("enhanced", "shelter class")],
    ["exposed sides: notGiven", without("EN ISO 13789", "exposed sides")],
    ["shielding: notGiven", without("EN ISO 13789", "shielding")],
    ["floor area: notGiven", without("normalized leakage", "floor area")],
    ["building height: notGiven", without("normalized leakage", "building height")],
    ["weather and shielding factor: notGiven", without("ASHRAE 62.2", "weather and shielding factor")],
  ]);
  refuses("invalid", [
    ["flow: aboveZero", () => flow("n50/20", { flow: 0 }), { got: 0 }],
    ["exponent: exponent", () => flow("basic", { exponent: 0.3 }), { lowest: 0.4, highest: 1.1, got: 0.3 }],
    ["wind speed: windSpeed", () => flow("basic", { "wind speed": -1 }), { lowest: 0, highest: 100, got: -1 }],
    ["wind speed: windSpeed", () => flow("enhanced", { "wind speed": 101 }), { lowest: 0, highest: 100, got: 101 }],
    [
      "temperature difference: temperatureDifference",
      () => flow("basic", { "temperature difference": -101 }),
      { lowest: 0, highest: 100, got: 101 },
    ],
    ["storeys: wholeNumber", () => flow("basic", { storeys: 4 }), { lowest: 1, highest: 3, got: 4 }],
    ["storeys: wholeNumber", () => flow("enhanced", { storeys: 0 }), { lowest: 1, highest: 3, got: 0 }],
    ["storeys: wholeNumber", () => flow("enhanced", { storeys: 1.5 }), { lowest: 1, highest: 3, got: 1.5 }],
    ["shelter class: wholeNumber", () => flow("basic", { "shelter class": 6 }), { lowest: 1, highest: 5, got: 6 }],
    ["shelter class: wholeNumber", () => flow("enhanced", { "shelter class": 0 }), { lowest: 1, highest: 5, got: 0 }],
    ["supply flow: zeroOrMore", () => flow("EN ISO 13789", { "supply flow": -1 }), { got: -1 }],
    ["extract flow: zeroOrMore", () => flow("EN ISO 13789", { "extract flow": Infinity }), { got: Infinity }],
    ["floor area: aboveZero", () => flow("normalized leakage", { "floor area": 0 }), { got: 0 }],
    ["building height: aboveZero", () => flow("normalized leakage", { "building height": -5 }), { got: -5 }],
    [
      "weather and shielding factor: weatherFactor",
      () => flow("ASHRAE 62.2", { "weather and shielding factor": 0.09 }),
      { lowest: 0.1, highest: 3, got: 0.09 },
    ],
    [
      "weather and shielding factor: weatherFactor",
      () => flow("ASHRAE 62.2", { "weather and shielding factor": 3.1 }),
      { lowest: 0.1, highest: 3, got: 3.1 },
    ],
  ]);
  takes([
    ["calm air", () => flow("basic", { "wind speed": 0 })],
    ["100 m/s", () => flow("basic", { "wind speed": 100 })],
    ["100 K", () => flow("basic", { "temperature difference": 100 })],
    ["no temperature difference", () => flow("enhanced", { "temperature difference": 0 })],
    ["factor 0.1", () => flow("ASHRAE 62.2", { "weather and shielding factor": 0.1 })],
    ["factor 3", () => flow("ASHRAE 62.2", { "weather and shielding factor": 3 })],
    ["no mechanical ventilation", () => flow("EN ISO 13789", { "supply flow": 0, "extract flow": 0 })],
  ]);

  const effective = ((4 / 50) ** 0.65 * (1000 / 3600)) / Math.sqrt(8 / 1.2041);

  // Handbook—Fundamentals ch. 16, table 4: stack coefficients of 1, 2, 3 storeys; still air leaves the stack alone.
  test.each([
    [1, 0.000145],
    [2, 0.00029],
    [3, 0.000435],
  ])("basic model, stack, %d storeys (ASHRAE Fundamentals ch. 16)", (storeys, coefficient) => {
    const expected = 3.6 * 1e4 * effective * Math.sqrt(coefficient * 20);
    expect(flow("basic", { storeys, "wind speed": 0 })).toBeCloseTo(expected, 8);
    expect(flow("basic", { storeys, "wind speed": 0, "temperature difference": -20 })).toBeCloseTo(expected, 8);
  });

  // Table 6 of the same chapter: wind coefficients by shelter class, then storeys; without a temperature difference the wind is left alone.
  test.each([
    [1, [0.000319, 0.00042, 0.000494]],
    [2, [0.000246, 0.000325, 0.000382]],
    [3, [0.000174, 0.000231, 0.000271]],
    [4, [0.000104, 0.000137, 0.000161]],
    [5, [0.000032, 0.000042, 0.000049]],
  ])("basic model, wind, shelter class %d (ASHRAE Fundamentals ch. 16)", (shelterClass, coefficients) => {
    coefficients.forEach((coefficient, index) => {
      const result = flow("basic", { "shelter class": shelterClass, storeys: index + 1, "temperature difference": 0 });
      expect(result).toBeCloseTo(3.6 * 1e4 * effective * Math.sqrt(coefficient * 16), 8);
    });
  });

  const C = 1000 / 50 ** 0.65;
  // Tables 7 to 10: stack by storeys without and with a flue; wind by foundation; shelter; wind speed multiplier.
  test.each([
    [1, 0.054, 0.069],
    [2, 0.078, 0.089],
    [3, 0.098, 0.107],
  ])("enhanced model, stack, %d storeys (ASHRAE Fundamentals ch. 16)", (storeys, plain, flue) => {
    expect(flow("enhanced", { storeys, "wind speed": 0 })).toBeCloseTo(C * plain * 20 ** 0.65, 8);
    expect(flow("enhanced", { storeys, "wind speed": 0, flue: "yes" })).toBeCloseTo(C * flue * 20 ** 0.65, 8);
  });
  test.each([
    ["basement or slab", 1, 0.156, 0.142, 1.1],
    ["basement or slab", 2, 0.17, 0.156, 1.07],
    ["basement or slab", 3, 0.17, 0.167, 1.06],
    ["crawl space", 1, 0.128, 0.128, 1.1],
    ["crawl space", 2, 0.142, 0.142, 1.07],
    ["crawl space", 3, 0.151, 0.154, 1.06],
  ] as const)(
    "enhanced model, wind, %s, %d storeys (ASHRAE Fundamentals ch. 16)",
    (foundation, storeys, plain, flue, shelter) => {
      const multiplier = [0.48, 0.59, 0.67][storeys - 1]!;
      const windy = { foundation, storeys, "temperature difference": 0, "shelter class": 1 };
      expect(flow("enhanced", windy)).toBeCloseTo(C * plain * (multiplier * 4) ** 1.3, 8);
      expect(flow("enhanced", { ...windy, flue: "yes" })).toBeCloseTo(C * flue * (shelter * multiplier * 4) ** 1.3, 8);
    },
  );
  test.each([
    [1, [1, 1.1, 1.07, 1.06]],
    [2, [0.9, 1.02, 0.98, 0.97]],
    [3, [0.7, 0.86, 0.81, 0.79]],
    [4, [0.5, 0.7, 0.64, 0.61]],
    [5, [0.3, 0.54, 0.47, 0.43]],
  ])("enhanced model, shelter class %d (ASHRAE Fundamentals ch. 16)", (shelterClass, factors) => {
    const calm = { "temperature difference": 0, foundation: "crawl space" } as const;
    const speeds = [2, 1, 2, 3].map((storeys, column) => {
      const flue = column > 0 ? "yes" : "no";
      const result = flow("enhanced", { ...calm, storeys, flue, "shelter class": shelterClass });
      const open = flow("enhanced", { ...calm, storeys, flue, "shelter class": 1 });
      return (result / open) ** (1 / 1.3) * [1, 1.1, 1.07, 1.06][column]!;
    });
    speeds.forEach((speed, column) => expect(speed).toBeCloseTo(factors[column]!, 10));
  });

  // e and f as the standard tabulates them (from memory: check against your own copy).
  test.each([
    ["several", "none", 0.1, 15],
    ["several", "moderate", 0.07, 15],
    ["several", "heavy", 0.04, 15],
    ["one", "none", 0.03, 20],
    ["one", "moderate", 0.02, 20],
    ["one", "heavy", 0.01, 20],
  ] as const)("EN ISO 13789, %s exposed, shielding %s", (sides, shielding, e, f) => {
    const house = { "exposed sides": sides, shielding };
    expect(flow("EN ISO 13789", house)).toBeCloseTo(1000 * e, 10);
    const unbalanced = (1000 * e) / (1 + (f / e) * 0.05 ** 2);
    expect(flow("EN ISO 13789", { ...house, "supply flow": 200, "extract flow": 150 })).toBeCloseTo(unbalanced, 10);
    expect(flow("EN ISO 13789", { ...house, "extract flow": 50 })).toBeCloseTo(unbalanced, 10);
  });

  test("n50/20, normalized leakage and its credit, by hand", () => {
    expect(flow("n50/20")).toBe(50);
    const normalized = 1000 * (effective / 150) * 2 ** 0.4;
    expect(flow("normalized leakage")).toBeCloseTo(normalized, 12);
    expect(flow("ASHRAE 62.2")).toBeCloseTo((3.6 * normalized * 0.6 * 150) / 1.44, 8);
  });

  test("an exponent that is not given is 0.65", () => {
    expect(without("basic", "exponent")()).toBe(flow("basic"));
  });
});

describe("heat loss", () => {
  refuses("invalid", [
    ["flow: aboveZero", () => heatLoss(0, {}), { got: 0 }],
    ["heat capacity: heatCapacity", () => heatLoss(100, {}, 0.19)],
    ["heat capacity: heatCapacity", () => heatLoss(100, {}, 0.41)],
    ["degree hours: aboveZero", () => heatLoss(100, { degreeHours: 0 }), { got: 0 }],
  ]);
  takes([
    ["heat capacity 0.2", () => heatLoss(100, {}, 0.2)],
    ["heat capacity 0.4", () => heatLoss(100, {}, 0.4)],
  ]);

  test("100 m³/h: 34 W/K, at 20 K 680 W, over 80 000 K·h 2 720 kWh (EN 12831:2003)", () => {
    expect(heatLoss(100, {})).toEqual({ coefficient: 34 });
    const result = heatLoss(100, { temperatureDifference: 20, degreeHours: 80_000 });
    expect(result).toEqual({ coefficient: 34, power: 680, energy: 2720 });
    expect(heatLoss(100, { temperatureDifference: -5 })).toEqual({ coefficient: 34, power: -170 });
  });
});
