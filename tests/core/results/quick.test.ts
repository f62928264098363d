import { describe, expect, test } from "vitest";
import { onePointFlow, studentT, twoPointFlow, twoStations } from "../../../src/core";
import { readings } from "../../authorities/support/leakage";
import { refuses, takes } from "../refusals";

describe("one point", () => {
  refuses("invalid", [
    ["flow: aboveZero", () => onePointFlow(0, 50), { got: 0 }],
    ["at: aboveZero", () => onePointFlow(500, 50, { at: 0 }), { got: 0 }],
    ["exponent: exponent", () => onePointFlow(500, 50, { exponent: 0.3 }), { lowest: 0.4, highest: 1.1, got: 0.3 }],
    ["exponent: exponentUncertainty", () => onePointFlow(500, 50, { exponentUncertainty: -0.01 })],
    ["exponent: exponentUncertainty", () => onePointFlow(500, 50, { exponentUncertainty: 1.01 })],
    ["pressure: notZero", () => onePointFlow(500, 0)],
    ["pressure: belowBaseline", () => onePointFlow(500, -3, { baseline: -3 }), { pressure: -3, baseline: -3 }],
    ["pressure: belowBaseline", () => onePointFlow(500, 2, { baseline: 3 }), { pressure: 2, baseline: 3 }],
  ]);
  takes([
    ["no uncertainty of the exponent", () => onePointFlow(500, 40, { exponentUncertainty: 0 })],
    ["an uncertainty of 1", () => onePointFlow(500, 40, { exponentUncertainty: 1 })],
  ]);
});

describe("two points", () => {
  const [high, low] = [readings([50, 51], [400, 404]), readings([12.5, 12], [160, 156])];
  refuses("missing", [
    ["pressures: tooFew", () => twoStations(readings([50], [400])), { least: 2, of: "pressures", count: 1 }],
    ["pressures: tooFew", () => twoPointFlow([], low), { least: 2, of: "pressures", count: 1 }],
    ["pressures: tooFew", () => twoPointFlow(high, []), { least: 2, of: "pressures", count: 1 }],
  ]);
  refuses("invalid", [
    ["at: aboveZero", () => twoPointFlow(high, low, -50), { got: -50 }],
    ["pressures, row 1: aboveZero", () => twoPointFlow(high, readings([0], [160])), { got: 0 }],
    ["flows, row 2: aboveZero", () => twoPointFlow(readings([50, 51], [400, -1]), low), { got: -1 }],
    ["flows: flowNotRising", () => twoPointFlow(readings([50], [160]), readings([12.5], [160]))],
    [
      "pressures: pressuresNotApart",
      () => twoPointFlow(readings([51, 50], [400, 399]), readings([34, 33], [300, 299])),
      { above: 50, below: 34 },
    ],
    // The gap within a group is as wide as the gap between the groups.
    [
      "pressures: pressuresNotApart",
      () => twoPointFlow(readings([80, 40], [400, 250]), readings([20], [160])),
      { above: 40, below: 20 },
    ],
    [
      "pressures: pressuresNotApart",
      () => twoPointFlow(readings([40], [250]), readings([20, 10], [160, 100])),
      { above: 40, below: 20 },
    ],
  ]);
  takes([["pressures in the ratio of 1.5", () => twoPointFlow(readings([60], [400]), readings([40], [300]))]]);

  test("stations are split where the ratio of neighbours is largest, in whatever order they were read", () => {
    const [upper, lower] = twoStations(readings([12, 50, 13, 48, 12.5, 49], [1, 2, 3, 4, 5, 6]));
    expect(upper.map(({ pressure }) => pressure)).toEqual([50, 49, 48]);
    expect(lower.map(({ pressure }) => pressure)).toEqual([13, 12.5, 12]);
    expect(twoStations(readings([50, 50], [1, 2])).map(({ length }) => length)).toEqual([1, 1]);
  });

  test("of two steps alike the one at the higher pressure splits", () => {
    expect(
      twoStations(readings([20, 80, 40], [1, 2, 3])).map((station) => station.map(({ pressure }) => pressure)),
    ).toEqual([[80], [40, 20]]);
  });

  test("by hand at 25 Pa: weights of both stations' logarithms, limits, degrees of freedom (JCGM 100:2008 5.1.2 and G.4.1)", () => {
    const [at50, at12] = [readings([50, 50, 50], [400, 408, 396]), readings([12.5, 12.5], [160, 162])];
    const result = twoPointFlow(at50, at12, 25);
    const [q1, q2, span] = [1204 / 3, 161, Math.log(4)];
    const n = Math.log(q1 / q2) / span;
    const flow = q1 * 0.5 ** n;
    // Half-way between the stations on the logarithms, both weigh the same.
    const ofStation = (flows: readonly number[]) => {
      const logs = flows.map(Math.log);
      const mean = logs.reduce((a, b) => a + b) / logs.length;
      return logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (logs.length - 1) / logs.length;
    };
    const [v1, v2] = [ofStation([400, 408, 396]), ofStation([160, 162])];
    const relative = Math.sqrt(0.25 * v1 + 0.25 * v2);
    expect(result.coefficient * 50 ** n).toBeCloseTo(q1, 9);
    expect(result.standardUncertainty).toBeCloseTo(flow * relative, 9);
    expect(result.exponentUncertainty).toBeCloseTo(Math.sqrt(v1 + v2) / span, 12);
    const effective = (v1 + v2) ** 2 / (v1 ** 2 / 2 + v2 ** 2 / 1);
    expect(result.degreesOfFreedom).toBe(Math.floor(effective));
    const t = studentT(0.95, Math.floor(effective));
    const limits = result.flow as { value: number; lower: number; upper: number };
    expect(limits.value).toBeCloseTo(flow, 9);
    expect(Math.log(limits.upper / flow)).toBeCloseTo(t * relative, 10);
    const ofExponent = result.exponent as { value: number; lower: number; upper: number };
    expect(ofExponent.upper - n).toBeCloseTo((t * Math.sqrt(v1 + v2)) / span, 10);
    expect(n - ofExponent.lower).toBeCloseTo((t * Math.sqrt(v1 + v2)) / span, 10);
    // At a quarter of the way the nearer station weighs three quarters.
    const quarter = twoPointFlow(at50, at12, 50 / 4 ** 0.25);
    expect(quarter.standardUncertainty! / (quarter.flow as { value: number }).value).toBeCloseTo(
      Math.sqrt(0.5625 * v1 + 0.0625 * v2),
      12,
    );
  });

  test("one reading at a pressure has no scatter, so there are no limits", () => {
    for (const result of [twoPointFlow(high, low.slice(1)), twoPointFlow(high.slice(1), low)]) {
      expect(typeof result.flow).toBe("number");
      expect(typeof result.exponent).toBe("number");
      expect(result).not.toHaveProperty("standardUncertainty");
    }
  });

  test("repeats that agree fully leave no degrees of freedom to state", () => {
    const result = twoPointFlow(readings([50, 50], [400, 400]), readings([12.5, 12.5], [160, 160]));
    expect(result.standardUncertainty).toBe(0);
    expect(result).not.toHaveProperty("degreesOfFreedom");
    expect(twoPointFlow(high, low).degreesOfFreedom).toBeGreaterThan(0);
  });
});
