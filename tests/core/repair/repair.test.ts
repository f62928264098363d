import { describe, expect, test } from "vitest";
import {
  conformanceProbability,
  finalForecast,
  holeDiameter,
  leakageDifference,
  normalProbability,
  normalQuantile,
  studentT,
  targetGap,
  type FlowRange,
} from "../../../src/core";
import { refuses, takes } from "../refusals";

const range = (low: number, high: number, likely?: number): FlowRange => ({
  low,
  high,
  row: 3,
  ...(likely !== undefined && { likely }),
});

describe("a hole", () => {
  refuses("invalid", [
    ["area: aboveZero", () => holeDiameter(0), { got: 0 }],
    ["discharge coefficient: aboveZeroUpTo", () => holeDiameter(0.01, 0), { highest: 1, got: 0 }],
    ["discharge coefficient: aboveZeroUpTo", () => holeDiameter(0.01, 1.2), { highest: 1, got: 1.2 }],
  ]);
  takes([["discharge coefficient 1", () => holeDiameter(0.01, 1)]]);
});

describe("difference of two flows", () => {
  const known = { before: 6, after: 5, common: 0.02 };
  refuses("invalid", [
    ["flow before: aboveZero", () => leakageDifference(0, 200), { got: 0 }],
    ["flow after: aboveZero", () => leakageDifference(236, -200), { got: -200 }],
    ["common uncertainty: smallFraction", () => leakageDifference(236, 200, { ...known, common: 2 }), { got: 2 }],
    ["common uncertainty: smallFraction", () => leakageDifference(236, 200, { ...known, common: 1 }), { got: 1 }],
    [
      "common uncertainty: smallFraction",
      () => leakageDifference(236, 200, { ...known, common: -0.01 }),
      { got: -0.01 },
    ],
    [
      "uncertainty before: zeroOrMore",
      () => leakageDifference(236, 200, { ...known, before: -1, common: 0 }),
      { got: -1 },
    ],
    ["degrees before: aboveZero", () => leakageDifference(236, 200, { ...known, degreesBefore: 0 }), { got: 0 }],
    ["degrees after: aboveZero", () => leakageDifference(236, 200, { ...known, degreesAfter: -3 }), { got: -3 }],
    [
      "uncertainty after: zeroOrMore",
      () => leakageDifference(236, 200, { ...known, after: Infinity }),
      { got: Infinity },
    ],
    [
      "uncertainty before: belowCommonPart",
      () => leakageDifference(250, 200, { ...known, before: 4 }),
      { uncertainty: 4, common: 5 },
    ],
  ]);

  test("a common part that is the whole leaves nothing of its own", () => {
    const { uncertainty } = leakageDifference(250, 200, { before: 5, after: 4, common: 0.02 });
    // Only the common part counts: 0.02 × 50.
    expect(uncertainty!.standard).toBeCloseTo(1, 12);
    expect(uncertainty!.isSignificant).toBe(true);
  });

  test("few readings: t for the effective degrees of freedom (JCGM 100:2008 G.4.1)", () => {
    // Equal uncertainties with 3 degrees each make 6: t is 2.4469 (published tables), for 7 it would be 2.3646.
    const few = { before: 3, after: 3, common: 0, degreesBefore: 3, degreesAfter: 3 };
    const { uncertainty, change } = leakageDifference(200, 200.001, few);
    expect((uncertainty!.upper - change) / Math.hypot(3, 3)).toBeCloseTo(2.4469, 4);
    // 3 and 3.9 make 6.783; between 6 and 7 degrees t lies between 2.4469 and 2.3646.
    const more = leakageDifference(200, 200.001, { ...few, degreesAfter: 3.9 }).uncertainty!;
    const t = (more.upper - change) / Math.hypot(3, 3);
    expect(t).toBeCloseTo(studentT(0.95, 324 / (81 / 3 + 81 / 3.9)), 10);
    expect(t).toBeLessThan(2.4);
    // Less than 1 degree counts as 1: 12.706.
    const least = leakageDifference(200, 200.001, { ...few, degreesBefore: 0.1 }).uncertainty!;
    expect((least.upper - change) / Math.hypot(3, 3)).toBeCloseTo(12.7062, 4);
    // One that is known for sure leaves 4·3 = 12 degrees: 2.1788.
    const one = leakageDifference(200, 200.001, { ...few, degreesAfter: undefined }).uncertainty!;
    expect((one.upper - change) / Math.hypot(3, 3)).toBeCloseTo(2.1788, 4);
  });

  test("what is left after the common part keeps the few degrees of freedom that the whole hides", () => {
    // Of 13, 12 is its own with 4 degrees; the common 5 is known for sure, so that 12⁴/4 = 13⁴/ν of the whole.
    const own = leakageDifference(250, 230, { before: 12, after: 0, common: 0, degreesBefore: 4 }).uncertainty!;
    const whole = leakageDifference(250, 230, {
      before: 13,
      after: 4.6,
      common: 0.02,
      degreesBefore: 4 * (13 / 12) ** 4,
    }).uncertainty!;
    expect(whole.standard).toBeCloseTo(Math.hypot(12, 0.4), 12);
    expect((own.upper - 20) / 12).toBeCloseTo(studentT(0.95, 4), 10);
    expect((whole.upper - 20) / whole.standard).toBeCloseTo(studentT(0.95, 4 * (whole.standard / 12) ** 4), 10);
  });

  test("limits at 95 % on both sides; the ratio decides, at 1.96 times its own uncertainty", () => {
    const { uncertainty, change } = leakageDifference(250, 200, { before: 13, after: 4, common: 0.02 });
    // 12 is left of 13 without the common 5, nothing of 4; the common part of the change is 1.
    expect(uncertainty!.standard).toBeCloseTo(Math.hypot(12, 1), 12);
    expect(uncertainty!.upper - change).toBeCloseTo(1.959963984540054 * Math.hypot(12, 1), 10);
    expect(change - uncertainty!.lower).toBeCloseTo(1.959963984540054 * Math.hypot(12, 1), 10);
  });

  test("flows alike are no change, whatever their uncertainty; without uncertainties nothing is said of significance", () => {
    expect(
      leakageDifference(200, 200 * (1 + 1e-12), { before: 0, after: 0, common: 0 }).uncertainty!.isSignificant,
    ).toBe(false);
    expect(leakageDifference(250, 200)).toEqual({ change: 50, changePercent: 20 });
  });
});

describe("forecast of the final test", () => {
  const forecast = (repairs: FlowRange[], openings: FlowRange[] = [], allowed = 1000, uncertainty = 0) =>
    finalForecast(1200, uncertainty, repairs, openings, allowed);
  refuses("invalid", [
    ["flow: aboveZero", () => finalForecast(0, 0, [], [], 1000), { got: 0 }],
    ["target: aboveZero", () => finalForecast(1200, 0, [], [], 0), { got: 0 }],
    ["flow uncertainty: zeroOrMore", () => forecast([], [], 1000, -1), { got: -1 }],
    ["flow uncertainty: zeroOrMore", () => forecast([], [], 1000, Infinity), { got: Infinity }],
    ["repairs, row 3: zeroOrMore", () => forecast([range(-1, 100)]), { got: -1 }],
    ["openings, row 3: zeroOrMore", () => forecast([], [range(0, Infinity)]), { got: 0 }],
    ["repairs, row 3: likelyOutsideRange", () => forecast([range(100, 200, 90)]), { likely: 90, low: 100, high: 200 }],
    [
      "openings, row 3: likelyOutsideRange",
      () => forecast([], [range(100, 200, 210)]),
      { likely: 210, low: 100, high: 200 },
    ],
    [
      "repairs, row 3: likelyOutsideRange",
      () => forecast([range(200, 100)]),
      { likely: undefined, low: 200, high: 100 },
    ],
    ["repairs: repairsExceedFlow", () => forecast([range(1200, 1300)]), { left: -50 }],
    ["repairs: repairsExceedFlow", () => forecast([range(1100, 1300)]), { left: 0 }],
    // Likely 100 is left, but the mean of what can come lies below 0.
    ["repairs: repairsExceedFlow", () => forecast([range(800, 2000, 1100)]), { left: -100 }],
    ["flow degrees of freedom: aboveZero", () => finalForecast(1200, 20, [], [], 1000, 0), { got: 0 }],
  ]);

  test("by hand: a likely flow is triangular, without one every flow is as likely (JCGM 101:2008 6.4.2 and 6.4.5)", () => {
    const result = finalForecast(1200, 20, [range(100, 400, 200)], [range(30, 90)], 1100);
    expect(result.likely).toBe(1200 - 200 + 60);
    // Mean of a triangle: (100 + 200 + 400)/3.
    expect(result.expected).toBeCloseTo(1200 - 700 / 3 + 60, 10);
    const triangle = (100 ** 2 + 200 ** 2 + 400 ** 2 - 100 * 200 - 100 * 400 - 200 * 400) / 18;
    expect(result.standardUncertainty).toBeCloseTo(Math.sqrt(400 + triangle + 60 ** 2 / 12), 10);
    const z = 1.959963984540054;
    const measured = Math.exp((20 * z) / 1200);
    expect(result.best).toBeCloseTo(1200 / measured - 400 + 30, 8);
    expect(result.worst).toBeCloseTo(1200 * measured - 100 + 90, 8);
    const relative = result.standardUncertainty / result.expected;
    expect(result.lower).toBeCloseTo(result.expected * Math.exp(-z * relative), 8);
    expect(result.upper).toBeCloseTo(result.expected * Math.exp(z * relative), 8);
    expect(result.degreesOfFreedom).toBe(Infinity);
    const inHand = Math.log(1100 / result.expected) / relative;
    expect(result.probability).toBeCloseTo(normalProbability(inHand), 12);
    // (1100 − 1026.7)/67.9 is 1.08: 0.85.
    expect(result.probability).toBeCloseTo(0.85, 2);
    expect(result.outlook).toBe("can go either way");
  });

  test("few readings widen the interval and the ends: t for the effective degrees of freedom, truncated", () => {
    // Ranges of 60 and 30 as standard uncertainties beside 60 with 3 degrees: (60² + 30²)²/(60⁴/3) = 4.69, counted as 4; t is 2.7764, for 3 degrees 3.1824.
    const spread = 30 * Math.sqrt(12);
    const result = finalForecast(1200, 60, [range(100, 100 + spread)], [], 1100, 3);
    expect(result.degreesOfFreedom).toBe(4);
    expect(Math.log(result.upper / result.expected)).toBeCloseTo((2.7764 * Math.hypot(60, 30)) / result.expected, 5);
    expect(result.worst).toBeCloseTo(1200 * Math.exp((3.1824 * 60) / 1200) - 100, 1);
    expect(result.probability).toBe(conformanceProbability(result.expected, Math.hypot(60, 30), 1100, 4));
  });

  test("each outlook follows from its probability, ends included", () => {
    // u/q is 0.05 without ranges, so that p = Φ(ln(T/1200)/0.05).
    const outlook = (p: number) => {
      const limit = 1200 * Math.exp(0.05 * -normalQuantile(p));
      return finalForecast(1200, 60, [], [], limit).outlook;
    };
    expect([0.976, 0.974, 0.901, 0.899, 0.58, 0.101, 0.099, 0.026, 0.024].map(outlook)).toEqual([
      "meets the limit with a margin",
      "probably meets the limit",
      "probably meets the limit",
      "can go either way",
      "can go either way",
      "can go either way",
      "probably misses the limit",
      "probably misses the limit",
      "misses the limit by a margin",
    ]);
  });

  test("the words agree with the interval: a margin where all of it lies on one side of the limit", () => {
    for (const limit of [900, 1000, 1050, 1080, 1100, 1200, 1300]) {
      const { lower, upper, outlook } = finalForecast(1200, 30, [range(80, 180, 120)], [], limit, 9);
      expect(outlook === "meets the limit with a margin").toBe(upper <= limit);
      expect(outlook === "misses the limit by a margin").toBe(lower > limit);
    }
  });

  test("no flow lies below 0", () => {
    const { best, lower } = forecast([range(0, 1300, 1100)], [], 1000, 100);
    expect(best).toBe(0);
    expect(lower).toBeGreaterThan(0);
  });

  test("a flow that is known for sure has no width", () => {
    expect(forecast([range(0, 0)], [range(50, 50, 50)])).toMatchObject({
      likely: 1250,
      best: 1250,
      worst: 1250,
      lower: 1250,
      upper: 1250,
      standardUncertainty: 0,
      degreesOfFreedom: Infinity,
      probability: 0,
      outlook: "misses the limit by a margin",
    });
    expect(forecast([range(200, 200)]).outlook).toBe("meets the limit with a margin");
  });
});

describe("gap to the target", () => {
  const rate = { quantity: "air change rate" } as const;
  const gap = (flow: number) => targetGap(flow, 1, rate, { volume: 1000 });
  refuses("invalid", [["flow: aboveZero", () => gap(0), { got: 0 }]]);

  test("what is to be sealed, or what is in hand", () => {
    const over = gap(1250);
    expect(over).toMatchObject({
      isMet: false,
      allowed: 1000,
      toRemove: 250,
      toRemovePercent: 20,
      inHand: 0,
      inHandPercent: 0,
    });
    expect(over.inQuantity).toBe(1.25);
    // q = 3600·C_d·A·√(2·50/1.2041), once with C_d 0.6 at 50 Pa, once as the definitions have it.
    expect(over.realArea).toBeCloseTo(250 / 3600 / 0.6 / Math.sqrt(100 / 1.2041), 12);
    expect(over.realDiameter).toBeCloseTo(Math.sqrt((4 * over.realArea) / Math.PI), 12);
    expect(over.leakageAreas["effective 4 Pa"]).toBeCloseTo(
      (250 * (4 / 50) ** 0.65) / 3600 / Math.sqrt(8 / 1.2041),
      12,
    );
    expect(over.leakageAreas["equivalent 10 Pa"]).toBeCloseTo(
      (250 * (10 / 50) ** 0.65) / 3600 / 0.611 / Math.sqrt(20 / 1.2041),
      12,
    );
    const under = gap(800);
    expect(under).toMatchObject({
      isMet: true,
      toRemove: 0,
      toRemovePercent: 0,
      inHand: 200,
      inHandPercent: 20,
      realArea: 0,
      realDiameter: 0,
    });
    expect(gap(1000)).toMatchObject({ isMet: true, inHand: 0 });
    // A flow above the limit by a rounding of binary numbers is at the limit.
    expect(gap(1000 + 1e-8)).toMatchObject({ isMet: true, toRemove: 0, inHand: 0 });
  });
});
