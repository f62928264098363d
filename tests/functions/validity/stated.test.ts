import { describe, expect, test } from "vitest";
import { validityChecks } from "../../../src/functions";
import { column } from "../errors";
import { type Table, rowOf, outcome, certificates, complete, pressures, flows, checks } from "./checks";

describe("what the tester states", () => {
  const one = (symbol: string, ...settings: [string, unknown][]) => {
    const { measured, limit, outcome: result } = rowOf(checks({ settings }), symbol);
    return [measured, limit, result];
  };

  test("wind with its place, Beaufort, height", () => {
    expect(one("wind", ["wind speed", 2])).toEqual([2, "≤ 3", "cannot be judged"]);
    expect(one("wind", ["wind speed", 0], ["wind place", "near the ground"])).toEqual([0, "≤ 3", "met"]);
    expect(one("wind", ["wind speed", 5], ["wind place", "Weather station"])).toEqual([5, "≤ 6", "met"]);
    expect(one("beaufort", ["beaufort", 4])).toEqual([4, "≤ 3", "not met"]);
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

  test("in IP the same test has the same outcomes", () => {
    const perCfm = 0.3048 ** 3 * 60;
    const settings: [string, unknown][] = [
      ["units", "IP"],
      ["volume", 420 / 0.3048 ** 3],
      ["flow basis", "actual at the fan"],
      ["indoor temperature", 69.8],
      ["outdoor temperature", 41],
      ["building height", 10 / 0.3048],
      ["wind speed", 2 / 0.44704],
      ["wind place", "near the ground"],
      ...certificates,
    ];
    const ip: Table = validityChecks(
      "depressurization",
      column(...pressures),
      column(...flows.map((flow) => flow / perCfm)),
      column(-1.2, -1.6, -1.4),
      column(-1, -1.4, -1.2),
      settings,
    );
    const si = checks({
      settings: [
        ["building height", 10],
        ["wind speed", 2],
        ["wind place", "near the ground"],
      ],
    });
    expect(ip.map((row) => row[5])).toEqual(si.map((row) => row[5]));
    ip.forEach((row, index) => {
      const [mine, other] = [row[2], si[index]?.[2]] as const;
      if (typeof mine === "number") expect(mine).toBeCloseTo(Number(other), 8);
    });
  });
});
