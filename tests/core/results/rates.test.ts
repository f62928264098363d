import { describe, expect, test } from "vitest";
import { airChangeRate, averagedResult, leakageArea, leakageAreaTerms, specificLeakage } from "../../../src/core";
import { refuses, takes } from "../refusals";

describe("rates and areas", () => {
  const hole = leakageAreaTerms["ISO 9972 10 Pa"];
  refuses("invalid", [
    ["flow: must be above 0 (got 0)", () => airChangeRate(0, 400)],
    ["volume: must be above 0 (got 0)", () => airChangeRate(240, 0)],
    ["flow: must be above 0 (got -240)", () => specificLeakage(-240, 400)],
    ["area: must be above 0 (got NaN)", () => specificLeakage(240, NaN)],
    ["coefficient: must be above 0 (got 0)", () => leakageArea(0, 0.65, hole)],
    ["exponent: above 0 and not more than 1.5, usually 0.5 to 1 (got 0)", () => leakageArea(10, 0, hole)],
    ["exponent: above 0 and not more than 1.5, usually 0.5 to 1 (got 1.6)", () => leakageArea(10, 1.6, hole)],
    ["pressure: must be above 0 (got 0)", () => leakageArea(10, 0.65, { ...hole, pressure: 0 })],
    [
      "discharge_coefficient: above 0 and not more than 1 (got 0)",
      () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 0 }),
    ],
    [
      "discharge_coefficient: above 0 and not more than 1 (got 1.01)",
      () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 1.01 }),
    ],
  ]);
  takes([
    ["exponent 1.5", () => leakageArea(10, 1.5, hole)],
    ["discharge coefficient 1", () => leakageArea(10, 0.65, { ...hole, dischargeCoefficient: 1 })],
  ]);
});

describe("mean of both directions", () => {
  const alone = 'no result yet; one direction alone counts only with one_direction "accept"';
  refuses("missing", [
    [`pressurization: ${alone}`, () => averagedResult({ depressurization: [1], pressurization: [] })],
    [`depressurization: ${alone}`, () => averagedResult({ depressurization: [], pressurization: [1] })],
    [`depressurization: ${alone}`, () => averagedResult({ depressurization: [], pressurization: [] }, "accept")],
  ]);
  refuses("invalid", [
    [
      "pressurization: must be above 0 (got -1)",
      () => averagedResult({ depressurization: [1], pressurization: [2, -1] }),
    ],
    [
      "depressurization: the results are too large",
      () => averagedResult({ depressurization: [1e308, 1e308], pressurization: [1e308] }),
    ],
  ]);

  test("runs of one direction are averaged first", () => {
    expect(averagedResult({ depressurization: [1, 2, 3], pressurization: [4] })).toBe(3);
    expect(averagedResult({ depressurization: [], pressurization: [4, 6] }, "accept")).toBe(5);
  });
});
