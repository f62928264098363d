import { describe, expect, test } from "vitest";
import { airChangeRate, averagedResult, leakageArea, leakageAreaTerms, specificLeakage } from "../../../src/core";
import { refuses, takes } from "../refusals";

describe("rates and areas", () => {
  const hole = leakageAreaTerms["ISO 9972 10 Pa"];
  refuses("invalid", [
    ["flow: aboveZero", () => airChangeRate(0, 400), { got: 0 }],
    ["volume: aboveZero", () => airChangeRate(240, 0), { got: 0 }],
    ["flow: aboveZero", () => specificLeakage(-240, 400), { got: -240 }],
    ["area: aboveZero", () => specificLeakage(240, NaN), { got: NaN }],
    ["coefficient: aboveZero", () => leakageArea(0, 0.65, hole), { got: 0 }],
    ["exponent: aboveZeroUpTo", () => leakageArea(10, 0, hole), { highest: 1.5, got: 0 }],
    ["exponent: aboveZeroUpTo", () => leakageArea(10, 1.6, hole), { highest: 1.5, got: 1.6 }],
    ["pressure: aboveZero", () => leakageArea(10, 0.65, { ...hole, pressure: 0 }), { got: 0 }],
    [
      "discharge coefficient: aboveZeroUpTo",
      () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 0 }),
      { highest: 1, got: 0 },
    ],
    [
      "discharge coefficient: aboveZeroUpTo",
      () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 1.01 }),
      { highest: 1, got: 1.01 },
    ],
  ]);
  takes([
    ["exponent 1.5", () => leakageArea(10, 1.5, hole)],
    ["discharge coefficient 1", () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 1 })],
  ]);
});

describe("mean of both directions", () => {
  refuses("missing", [
    ["pressurization: noResult", () => averagedResult({ depressurization: [1], pressurization: [] })],
    ["depressurization: noResult", () => averagedResult({ depressurization: [], pressurization: [1] })],
    ["depressurization: noResult", () => averagedResult({ depressurization: [], pressurization: [] }, "accept")],
  ]);
  refuses("invalid", [
    [
      "pressurization: aboveZero",
      () => averagedResult({ depressurization: [1], pressurization: [2, -1] }),
      { got: -1 },
    ],
    ["depressurization: tooLarge", () => averagedResult({ depressurization: [1e308, 1e308], pressurization: [1e308] })],
  ]);

  test("runs of one direction are averaged first", () => {
    expect(averagedResult({ depressurization: [1, 2, 3], pressurization: [4] })).toBe(3);
    expect(averagedResult({ depressurization: [], pressurization: [4, 6] }, "accept")).toBe(5);
  });
});
