import { describe, expect, test } from "vitest";
import {
  allowedFlow,
  conformanceProbability,
  inTargetQuantity,
  targetPressure,
  verdict,
  wholeDegreesOfFreedom,
  type TargetTerms,
} from "../../../src/core";
import { refuses, takes } from "../refusals";

const rate: TargetTerms = { quantity: "air change rate" };
const house = { volume: 400, envelopeArea: 360, floorArea: 160 };
const area = (definition?: TargetTerms["definition"], pressure?: number): TargetTerms => ({
  quantity: "leakage area per envelope area",
  ...(definition && { definition }),
  ...(pressure !== undefined && { pressure }),
});

describe("verdict", () => {
  refuses("invalid", [
    ["result: aboveZero", () => verdict(0, 0.6, { rule: "plain" }), { got: 0 }],
    ["target: aboveZero", () => verdict(0.5, -1, { rule: "plain" }), { got: -1 }],
    [
      "expanded uncertainty: zeroOrMore",
      () => verdict(0.5, 0.6, { rule: "guarded acceptance", expandedUncertainty: -0.01 }),
    ],
    [
      "expanded uncertainty: zeroOrMore",
      () => verdict(0.5, 0.6, { rule: "guarded rejection", expandedUncertainty: Infinity }),
    ],
    [
      "expanded uncertainty: neededWith",
      () => verdict(0.5, 0.6, { rule: "guarded acceptance" }),
      { other: "guarded acceptance" },
    ],
    [
      "decimals: ruleTakesUnrounded",
      () => verdict(0.5, 0.6, { rule: "guarded rejection", expandedUncertainty: 0.1, decimals: 1 }),
      { rule: "guarded rejection" },
    ],
    [
      "decimals: wholeNumber",
      () => verdict(0.5, 0.6, { rule: "plain", decimals: -1 }),
      { lowest: 0, highest: 10, got: -1 },
    ],
    [
      "decimals: wholeNumber",
      () => verdict(0.5, 0.6, { rule: "plain", decimals: 11 }),
      { lowest: 0, highest: 10, got: 11 },
    ],
    [
      "decimals: wholeNumber",
      () => verdict(0.5, 0.6, { rule: "plain", decimals: 1.5 }),
      { lowest: 0, highest: 10, got: 1.5 },
    ],
  ]);

  test("no uncertainty at all: the guarded rules are the plain one", () => {
    for (const rule of ["guarded acceptance", "guarded rejection"] as const) {
      expect(verdict(0.6, 0.6, { rule, expandedUncertainty: 0 })).toBe("pass");
      expect(verdict(0.601, 0.6, { rule, expandedUncertainty: 0 })).toBe("fail");
    }
  });

  test("an upper limit beyond all numbers does not meet the target, however large its slack would be", () => {
    const decide = (result: number, limit: number, expandedUncertainty = result) =>
      verdict(result, limit, { rule: "guarded acceptance", expandedUncertainty });
    expect([decide(1e308, 1e308), decide(0.5, 0.6, 1000), decide(1.7e308, 0.6)]).toEqual([
      "not proven",
      "not proven",
      "fail",
    ]);
  });

  test("the guarded rules go by the limits 0.6·exp(±0.1)", () => {
    const decide = (rule: "guarded acceptance" | "guarded rejection", limit: number) =>
      verdict(0.6, limit, { rule, expandedUncertainty: 0.06 });
    // exp(0.1) = 1.105170918, exp(−0.1) = 0.904837418: the limits are 0.66310255 and 0.54290245.
    const limits = [0.6632, 0.663, 0.543, 0.5429];
    expect(limits.map((limit) => decide("guarded acceptance", limit))).toEqual([
      "pass",
      "not proven",
      "not proven",
      "fail",
    ]);
    expect(limits.map((limit) => decide("guarded rejection", limit))).toEqual(["pass", "pass", "pass", "fail"]);
  });

  test("rounding to the decimals of the limit: nothing beyond the digits of a number, nothing below the first decimal", () => {
    const rounded = (result: number, limit: number, places: number) =>
      verdict(result, limit, { rule: "plain", decimals: places });
    expect(rounded(0.04, 1e-6, 1)).toBe("pass");
    expect(rounded(0.05, 1e-6, 1)).toBe("pass");
    expect(rounded(0.0501, 0.06, 1)).toBe("fail");
    expect(rounded(0.0004, 1e-9, 0)).toBe("pass");
    expect(rounded(123.4500001, 123.4, 1)).toBe("fail");
    expect(rounded(9.96, 9.9, 1)).toBe("fail");
    expect(rounded(9.96, 10, 1)).toBe("pass");
    expect(rounded(1234567.12345, 1234567.12345, 10)).toBe("pass");
    expect(rounded(1234567.12346, 1234567.12345, 10)).toBe("pass");
    expect(rounded(1234567.13, 1234567.12, 10)).toBe("fail");
  });
});

describe("probability of conformance", () => {
  refuses("invalid", [
    ["result: aboveZero", () => conformanceProbability(NaN, 0.1, 0.6), { got: NaN }],
    ["target: aboveZero", () => conformanceProbability(0.5, 0.1, 0), { got: 0 }],
    ["standard uncertainty: zeroOrMore", () => conformanceProbability(0.5, -0.1, 0.6)],
    ["standard uncertainty: zeroOrMore", () => conformanceProbability(0.5, Infinity, 0.6)],
    ["degrees of freedom: aboveZero", () => conformanceProbability(0.5, 0.1, 0.6, 0)],
  ]);

  test("without uncertainty it is certain", () => {
    expect(conformanceProbability(0.6, 0, 0.6)).toBe(1);
    expect(conformanceProbability(0.61, 0, 0.6)).toBe(0);
    // A share of the result that is below the smallest number is none.
    expect(conformanceProbability(60, 5e-324, 60)).toBe(1);
    expect(conformanceProbability(61, 5e-324, 60)).toBe(0);
  });

  test("degrees of freedom as tables take them (JCGM 100:2008 G.4.1)", () => {
    expect([0.3, 1, 1.99, 7.999_999_999_999_9, 8, 8.5, Infinity].map(wholeDegreesOfFreedom)).toEqual([
      1,
      1,
      1,
      8,
      8,
      8,
      Infinity,
    ]);
    expect(conformanceProbability(0.5, 0.1, 0.6, 1.9)).toBe(conformanceProbability(0.5, 0.1, 0.6, 1));
  });
});

describe("a limit and its terms", () => {
  refuses("invalid", [
    ["target: aboveZero", () => allowedFlow(0, rate, house), { got: 0 }],
    ["volume: aboveZero", () => allowedFlow(0.6, rate, { volume: 0 }), { got: 0 }],
    [
      "envelope area: aboveZero",
      () => allowedFlow(3, { quantity: "per envelope area" }, { envelopeArea: -1 }),
      { got: -1 },
    ],
    ["floor area: aboveZero", () => allowedFlow(3, { quantity: "per floor area" }, { floorArea: 0 }), { got: 0 }],
    ["reference pressure: aboveZero", () => targetPressure({ ...rate, pressure: -4 }), { got: -4 }],
    [
      "reference pressure: definitionFixes",
      () => targetPressure(area("effective 4 Pa", 10)),
      { definition: "effective 4 Pa", fixed: 4, got: 10 },
    ],
    ["pressure: aboveZero", () => allowedFlow(0.6, rate, house, 0.65, 0), { got: 0 }],
    ["exponent: exponent", () => allowedFlow(0.6, rate, house, 0.39), { lowest: 0.4, highest: 1.1, got: 0.39 }],
    ["exponent: exponent", () => allowedFlow(0.6, rate, house, 1.11), { lowest: 0.4, highest: 1.1, got: 1.11 }],
    ["flow: aboveZero", () => inTargetQuantity(0, rate, house), { got: 0 }],
  ]);
  refuses("missing", [
    ["volume: neededWith", () => allowedFlow(0.6, rate, {}), { other: "air change rate" }],
    [
      "envelope area: neededWith",
      () => allowedFlow(3, { quantity: "per envelope area" }, {}),
      { other: "per envelope area" },
    ],
    ["floor area: neededWith", () => allowedFlow(3, { quantity: "per floor area" }, {}), { other: "per floor area" }],
    [
      "envelope area: neededWith",
      () => allowedFlow(1, area("effective 4 Pa"), {}),
      { other: "leakage area per envelope area" },
    ],
    ["leakage area definition: limitNeedsDefinition", () => allowedFlow(1, area(), house)],
  ]);
  takes([
    ["exponent 0.4", () => allowedFlow(0.6, rate, house, 0.4)],
    ["exponent 1.1", () => allowedFlow(0.6, rate, house, 1.1)],
  ]);

  test("the pressure of a limit: 50 Pa, or what is stated, or its definition's", () => {
    expect(targetPressure(rate)).toBe(50);
    expect(targetPressure({ ...rate, pressure: 75 })).toBe(75);
    expect(targetPressure(area("effective 4 Pa"))).toBe(4);
    expect(targetPressure(area("equivalent 10 Pa", 10))).toBe(10);
  });

  test("a definition beside a limit that is no leakage area does not count", () => {
    expect(allowedFlow(0.6, { ...rate, definition: "effective 4 Pa" }, house)).toBeCloseTo(240, 10);
    expect(targetPressure({ ...rate, definition: "effective 4 Pa" })).toBe(50);
  });

  test("each quantity divides by its own size; another pressure scales by (p/p_limit)^n (ISO 9972:2015; q = C·Δp^n)", () => {
    expect(allowedFlow(0.6, rate, house)).toBeCloseTo(240, 10);
    expect(allowedFlow(3, { quantity: "per envelope area" }, house)).toBe(1080);
    expect(allowedFlow(3, { quantity: "per floor area" }, house)).toBe(480);
    expect(allowedFlow(3, { quantity: "per floor area", pressure: 75 }, house, 0.6)).toBeCloseTo(
      480 * (50 / 75) ** 0.6,
      9,
    );
    expect(allowedFlow(0.6, rate, house, undefined, 4)).toBeCloseTo(240 * (4 / 50) ** 0.65, 9);
    // 1 cm²/m² effective over 360 m² is 0.036 m²: q at 4 Pa by the orifice equation with C_d 1.
    const at4 = 3600 * 0.036 * Math.sqrt((2 * 4) / 1.2041);
    expect(allowedFlow(1, area("effective 4 Pa"), house, 0.65, 4)).toBeCloseTo(at4, 9);
    expect(inTargetQuantity(at4, area("effective 4 Pa"), house, 0.65, 4)).toBeCloseTo(1, 12);
  });
});
