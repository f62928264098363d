import { describe, expect, test } from "vitest";
import { checkNames, standards } from "../../../src/core";
import { testResult, validityChecks } from "../../../src/functions";
import { column, refusal } from "../errors";
import { type Table, rowOf, complete, pressures, flows, checks } from "./checks";

describe("the table", () => {
  test("has the same 35 rows and 9 columns for every standard, calm or half filled", () => {
    for (const standard of standards) {
      for (const half of [{}, { before: [""] }, { pressures: [-40], flows: [300] }]) {
        const table = checks({ ...half, settings: [["standard", standard]] });
        expect(table.map((row) => row[1])).toEqual(checkNames);
        expect(table).toHaveLength(35);
        expect(new Set(table.map((row) => row.length))).toEqual(new Set([9]));
      }
    }
    expect(new Set(checkNames.map((name) => name.toLowerCase())).size).toBe(checkNames.length);
  });

  test("a heading row where asked for", () => {
    const [head, ...rows] = checks({ settings: [["headings", "yes"]] });
    expect(head).toEqual([
      "check",
      "symbol",
      "measured",
      "limit",
      "unit",
      "outcome",
      "binding or advisory",
      "clause",
      "what to do",
    ]);
    expect(rows).toEqual(checks());
  });

  test("a row that is not met says what to do, one that cannot be judged what is missing, one that is met nothing", () => {
    for (const row of checks({
      settings: [
        ["wind speed", 4],
        ["wind place", "near the ground"],
      ],
    })) {
      expect(String(row[8]) === "").toBe(row[5] === "met" || row[5] === "");
    }
    expect(rowOf(checks({ pressures: pressures.slice(0, 4), flows: flows.slice(0, 4) }), "count")).toMatchObject({
      measured: 4,
      limit: "≥ 5",
      outcome: "not met",
      weight: "binding",
      clause: "ISO 9972:2015, 5.3.4 pressure sequence (C)",
      advice: "take eight or more readings",
    });
    expect(rowOf(checks(), "height_dT")).toMatchObject({
      limit: "≤ 250",
      clause: "ISO 9972:2015, meteorological conditions (M, from memory: look for “250 m·K”)",
      advice: 'give all of the settings "building height", "indoor temperature", "outdoor temperature"',
    });
  });

  test("a check that the standard does not have shows its value and the words for it", () => {
    expect(rowOf(checks({ settings: [["standard", "EN 13829"]] }), "r2")).toMatchObject({
      limit: "none in this standard",
      outcome: "",
      weight: "advisory",
      clause: "",
      advice: "",
    });
  });

  test("measures what TESTRESULT measures", () => {
    const baselines = [column(-1.2, -1.6, -1.4), column(-1, -1.4, -1.2)] as const;
    const result: Table = testResult(
      "depressurization",
      column(...pressures),
      column(...flows),
      ...baselines,
      complete,
    );
    const value = (symbol: string) => result.find((row) => row[1] === symbol)?.[2];
    for (const symbol of ["count", "dp_min", "dp_max", "r2"]) {
      expect(rowOf(checks(), symbol).measured).toBe(value(symbol));
    }
    expect(rowOf(checks(), "n").measured).toBeCloseTo(Number(value("n")), 13);
    expect(rowOf(checks(), "n50").measured).toBe(value("n50"));
  });
});

describe("hostile input", () => {
  test.each([
    ["a temperature out of range", [["outdoor temperature", 300]], /^settings: outdoor temperature/],
    ["a text for a date", [["test date", "24 Nov"]], /^settings, row \d+: test date/],
    ["a Beaufort number of 13", [["beaufort", 13]], /^settings, row \d+: beaufort:? a Beaufort number/],
    ["a negative wind", [["wind speed", -1]], /^settings, row \d+: wind speed:? must be 0 or more/],
  ] as const)("%s is an error that names the setting", (_, settings, message) => {
    const labels = settings.map(([label]) => label as string);
    const rest = complete.filter(([label]) => !labels.includes(label));
    const call = () =>
      validityChecks("depressurization", column(...pressures), column(...flows), column(-1), undefined, [
        ...rest,
        ...settings.map((row) => [...row]),
      ]);
    expect(refusal(call)).toMatchObject({ code: "#VALUE!", message: expect.stringMatching(message) as string });
  });

  test("a flow below 0 is an error that names its row, whatever the sign of the fit", () => {
    expect(refusal(() => checks({ flows: [574, -507, 441, 364, 281] }))).toEqual({
      code: "#VALUE!",
      message: expect.stringMatching(/^flows, row 2: .*-507/) as string,
    });
  });
});
