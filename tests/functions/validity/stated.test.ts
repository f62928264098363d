import { describe, expect, test } from "vitest";
import { methodVersion } from "../../../src/core";
import { validityChecks } from "../../../src/functions";
import { column } from "../errors";
import { rowOf, outcome, symbolsWith, complete, pressures, flows, checks } from "./checks";

describe("what the tester states", () => {
  const one = (symbol: string, ...settings: [string, unknown][]) => {
    const { measured, limit, outcome: result } = rowOf(checks({ settings }), symbol);
    return [measured, limit, result];
  };

  test("wind with its place, Beaufort, height", () => {
    expect(one("wind", ["wind speed", 2])).toEqual([2, "≤ 3", "cannot be judged"]);
    expect(one("wind", ["wind speed", 0], ["wind place", "near the ground"])).toEqual([0, "≤ 3", "met"]);
    expect(one("wind", ["wind speed", 5], ["wind place", "Weather station"])).toEqual([5, "≤ 6", "met"]);
    expect(one("beaufort", ["beaufort", 2])).toEqual([2, "≤ 2", "met"]);
    expect(one("beaufort", ["beaufort", 3])).toEqual([3, "≤ 2", "not met"]);
    expect(one("height_dT", ["building height", 20])).toEqual([320, "≤ 250", "not met"]);
    expect(one("height_dT", ["building height", 15.625])).toEqual([250, "≤ 250", "met"]);
  });

  test("certificates count to the end of their last day", () => {
    expect(one("gauge_days")).toEqual([0, "≥ 0", "met"]);
    expect(one("fan_days")).toEqual([365, "≥ 0", "met"]);
    const later = [...complete.filter(([label]) => label !== "test date"), ["test date", 46001.4]];
    const table = validityChecks(
      "depressurization",
      column(...pressures),
      column(...flows),
      column(-1, -1),
      column(-1, -1),
      later,
    );
    expect(rowOf(table, "gauge_days")).toMatchObject({ measured: -1, outcome: "not met", weight: "binding" });
  });

  test("a reason for staying below 50 Pa", () => {
    const low = { pressures: [-38.3, -34.3, -30.3, -26.3, -21.3], flows: [419, 388, 356, 321, 281] };
    expect(rowOf(checks(low), "dp_max")).toMatchObject({ limit: "≥ 50", outcome: "not met" });
    const reason: [string, unknown] = ["low pressure reason", "the fan's largest opening"];
    expect(rowOf(checks({ ...low, settings: [reason] }), "dp_max")).toMatchObject({ limit: "≥ 25", outcome: "met" });
    expect(outcome(checks({ ...low, settings: [reason] }), "reach_50")).toBe("not met");
  });

  test("extrapolation: 50 Pa from 28, 4 Pa from 10, and the reference pressure", () => {
    const low = checks({ pressures: [-29.3, -24.3, -21.3, -16.3, -11.3], flows: [350, 311, 286, 241, 184] });
    expect(rowOf(low, "reach_50")).toMatchObject({ outcome: "not met", weight: "advisory" });
    expect(Number(rowOf(low, "reach_50").measured)).toBeCloseTo(50 / 28, 12);
    expect(Number(rowOf(low, "reach_4").measured)).toBeCloseTo(2.5, 12);
    expect(one("reach_pr", ["reference pressure", 75])).toEqual([1.25, "≤ 1", "not met"]);
    expect(one("reach_pr", ["reference pressure", 60])).toEqual([1, "≤ 1", "met"]);
  });

  test("a unit slip shows in n50: litres taken for cubic metres", () => {
    const slip = [["volume", 420000] as const];
    const settings = [...complete.filter(([label]) => label !== "volume"), ...slip].map((row) => [...row]);
    const table = validityChecks(
      "depressurization",
      column(...pressures),
      column(...flows),
      column(-1),
      undefined,
      settings,
    );
    expect(rowOf(table, "n50")).toMatchObject({ outcome: "not met", weight: "advisory" });
  });

  test("the other direction: 10 % apart is advice, both directions are what ISO 9972 recommends", () => {
    const q50 = Number(rowOf(checks(), "n50").measured) * 420;
    const apart = checks({ settings: [["q50 of the other direction", q50 * 1.2]] });
    expect(outcome(apart, "direction")).toBe("met");
    expect(Number(rowOf(apart, "q50_apart").measured)).toBeCloseTo((200 * 0.2) / 2.2, 9);
    expect(rowOf(apart, "q50_apart")).toMatchObject({ outcome: "not met", weight: "advisory" });
    expect(outcome(checks({ settings: [["q50 of the other direction", q50 * 0.95]] }), "q50_apart")).toBe("met");
  });

  test("CGSB is for depressurization, ASTM E779 for both directions", () => {
    const turned = { direction: "pressurization" as const, pressures: pressures.map(Math.abs) };
    expect(outcome(checks({ ...turned, settings: [["standard", "CGSB 149.10"]] }), "direction")).toBe("not met");
    expect(rowOf(checks({ settings: [["standard", "ASTM E779"]] }), "direction")).toMatchObject({
      outcome: "cannot be judged",
      weight: "binding",
    });
  });

  test("outdoor temperature, where a standard has one", () => {
    const e779: [string, unknown] = ["standard", "ASTM E779"];
    expect(one("theta_e")).toEqual([5, "none in this standard", ""]);
    expect(one("theta_e", e779)).toEqual([5, "5 to 35", "met"]);
    const frost = [...complete.filter(([label]) => label !== "outdoor temperature"), ["outdoor temperature", -3], e779];
    const table = validityChecks("depressurization", column(...pressures), column(...flows), column(-1), [[-1]], frost);
    expect(rowOf(table, "theta_e")).toMatchObject({ measured: -3, outcome: "not met", weight: "advisory", unit: "°C" });
  });

  test("ASTM E779 forbids a test beyond 200 m·K, ISO 9972 advises against it beyond 250", () => {
    const tall: [string, unknown] = ["building height", 16];
    const forbidden = rowOf(checks({ settings: [tall, ["standard", "ASTM E779"]] }), "height_dT");
    expect(forbidden).toMatchObject({ measured: 256, limit: "≤ 200", outcome: "not met", weight: "binding" });
    expect(forbidden.clause).toContain("do not perform the test");
    expect(rowOf(checks({ settings: [tall] }), "height_dT")).toMatchObject({ outcome: "not met", weight: "advisory" });
  });

  test("a lowest pressure of 9.7 Pa is about 10 Pa: the margin keeps it valid, the row without the margin asks for a look", () => {
    const about = checks({
      pressures: [-61, -47, -36, -24, -11],
      flows: [574, 485, 408, 314, 190],
      before: [-1.2, -1.4],
      after: [-1.2, -1.4],
    });
    expect(rowOf(about, "dp_min")).toMatchObject({ limit: "≥ 7", outcome: "met", weight: "binding" });
    expect(rowOf(about, "dp_min_about")).toMatchObject({ limit: "≥ 10", outcome: "not met", weight: "advisory" });
    expect(Number(rowOf(about, "dp_min").measured)).toBeCloseTo(9.7, 12);
    expect(symbolsWith(about, "not met")).toEqual([]);
  });

  test("a technique that the standard does not ask for is advised against", () => {
    expect(one("technique")).toEqual(["ordinary", "ordinary", "met"]);
    const chosen = rowOf(checks({ settings: [["technique", "organic correlation"]] }), "technique");
    expect(chosen).toMatchObject({ measured: "organic correlation", outcome: "not met", weight: "advisory" });
    expect(chosen.advice).toMatch(/^the standard does not ask for it: keep it for planning/);
    expect(one("technique", ["standard", "CGSB 149.10"])).toEqual(["weighted", "weighted", "met"]);
  });

  test("exact zeros among the baseline readings are counted", () => {
    const table = checks({ before: [-1.2, 0, -1.4], after: [-1, 0, -1.2] });
    expect(rowOf(table, "zeros_dp0")).toMatchObject({
      measured: 2,
      limit: "≤ 0",
      outcome: "not met",
      weight: "advisory",
      clause: "common practice, no source",
      advice: '2 of 6 are exactly 0; blank cells arrive as 0 in some hosts: pass blanks as ""',
    });
    expect(one("zeros_dp0")).toEqual([0, "≤ 0", "met"]);
  });

  test("the version of the method stands in the last row and is judged by nothing", () => {
    expect(checks().at(-1)).toEqual(["version of the method", "method", methodVersion, "", "", "", "advisory", "", ""]);
  });
});
