import { describe, expect, test } from "vitest";
import { checkNames, fanFlow as flowOfFan, standards } from "../../src/core";
import { passFail, testResult, validityChecks } from "../../src/functions";
import vectors from "../authorities/uncertainty-vectors/vectors.json";
import trap from "../authorities/trade-practice/unsigned_readings.json";
import { column, refusal } from "./errors";

type Table = unknown[][];
const rowOf = (table: Table, symbol: string) => {
  const row = table.find((cells) => cells[1] === symbol);
  if (row === undefined) return expect.fail(`no row ${symbol}`);
  const [check, , measured, limit, unit, outcome, weight, clause, advice] = row;
  return { check, measured, limit, unit, outcome, weight, clause, advice };
};
const outcome = (table: Table, symbol: string) => rowOf(table, symbol).outcome;
const symbolsWith = (table: Table, wanted: string, weight = "binding") =>
  table.filter((row) => row[5] === wanted && row[6] === weight).map((row) => row[1]);

const certificates: [string, unknown][] = [
  ["test date", 46000],
  ["gauge certificate valid until", 46000],
  ["flow device certificate valid until", 46365],
];
const complete: [string, unknown][] = [
  ["volume", 420],
  ["flow basis", "actual at the fan"],
  ["indoor temperature", 21],
  ["outdoor temperature", 5],
  ...certificates,
];
const pressures = [-61.3, -51.3, -41.3, -31.3, -21.3];
const flows = [574, 507, 441, 364, 281];

interface Case {
  readonly direction?: "depressurization" | "pressurization";
  readonly pressures?: readonly unknown[];
  readonly flows?: readonly unknown[];
  readonly before?: readonly unknown[];
  readonly after?: readonly unknown[] | undefined;
  readonly settings?: readonly (readonly [string, unknown])[];
}

/** Checks of a calm test, with what a case changes; its settings stand below the complete ones. */
function checks(given: Case = {}): Table {
  const after = "after" in given ? given.after : [-1, -1.4, -1.2];
  return validityChecks(
    given.direction ?? "depressurization",
    column(...(given.pressures ?? pressures)),
    column(...(given.flows ?? flows)),
    column(...(given.before ?? [-1.2, -1.6, -1.4])),
    after && column(...after),
    [...complete.map((row) => [...row]), ...(given.settings ?? []).map((row) => [...row])],
  );
}

describe("the table", () => {
  test("has the same 27 rows and 9 columns for every standard, calm or half filled", () => {
    for (const standard of standards) {
      for (const half of [{}, { before: [""] }, { pressures: [-40], flows: [300] }]) {
        const table = checks({ ...half, settings: [["standard", standard]] });
        expect(table.map((row) => row[1])).toEqual(checkNames);
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
      clause: "ISO 9972:2015, meteorological conditions (M: check against your own copy)",
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

describe("half-filled forms", () => {
  test("without any reading there is nothing to judge", () => {
    expect(refusal(() => checks({ pressures: ["", ""], flows: ["", null] }))).toEqual({
      code: "#N/A",
      message: "pressures: no reading yet",
    });
  });

  test("two readings: pressures are judged, the line is not", () => {
    const table = checks({ pressures: pressures.slice(0, 2), flows: flows.slice(0, 2) });
    expect(outcome(table, "dp_max")).toBe("met");
    expect(outcome(table, "count")).toBe("not met");
    for (const symbol of ["n", "r2", "n50"]) expect(outcome(table, symbol)).toBe("cannot be judged");
  });

  test("no baseline yet: nothing that needs it is judged, the count is", () => {
    const table = checks({ before: ["", ""], after: ["", ""] });
    expect(outcome(table, "count")).toBe("met");
    for (const symbol of ["dp01-", "dp02-", "dp_min", "dp_max", "n", "dp0_of_min"]) {
      expect([symbol, outcome(table, symbol)]).toEqual([symbol, "cannot be judged"]);
    }
  });

  test("no baseline after the test yet: its checks stay open", () => {
    for (const after of [undefined, ["", ""]]) {
      const table = checks({ after });
      expect(symbolsWith(table, "cannot be judged")).toEqual(["dp02+", "dp02-", "dp0_of_min"]);
      expect(outcome(table, "n")).toBe("met");
    }
  });

  test("no settings at all: the readings are judged", () => {
    const table = validityChecks(
      "depressurization",
      column(...pressures),
      column(...flows),
      column(-1, -1.2),
      column(-1, 0),
    );
    for (const symbol of ["count", "dp_min", "dp_max", "n", "r2"]) expect(outcome(table, symbol)).toBe("met");
    expect(outcome(table, "n50")).toBe("cannot be judged");
    expect(symbolsWith(table, "cannot be judged")).toEqual(["gauge_days", "fan_days"]);
  });

  test("a technique that lacks its uncertainties leaves the line open, and says so", () => {
    const table = checks({ settings: [["technique", "errors in both"]] });
    expect(rowOf(table, "n")).toMatchObject({ measured: "", outcome: "cannot be judged" });
    expect(rowOf(table, "n").advice).toMatch(/the uncertainties that the technique asks for$/);
    const given = checks({
      settings: [
        ["technique", "errors in both"],
        ["pressure uncertainty", 0.5],
        ["flow uncertainty", 0.02],
      ],
    });
    expect(outcome(given, "n")).toBe("met");
  });

  test("readings at one pressure have no line, but are readings (ASTM E1827)", () => {
    const table = checks({
      pressures: [-51.3, -51.3, -51.3, -51.3, -51.3],
      flows: [500, 503, 499, 501, 500],
      settings: [["standard", "ASTM E1827"]],
    });
    expect(outcome(table, "count")).toBe("met");
    expect(outcome(table, "dp_max")).toBe("met");
    expect(rowOf(table, "n")).toMatchObject({ measured: "", outcome: "" });
  });
});

describe("the baseline", () => {
  test("positive and negative readings are averaged apart", () => {
    const table = checks({ before: [-6, 6, -4, 6.2], after: [5.5, 4.5, 0] });
    expect(rowOf(table, "dp01+")).toMatchObject({ measured: 6.1, outcome: "not met" });
    expect(rowOf(table, "dp01-")).toMatchObject({ measured: -5, outcome: "met" });
    expect(rowOf(table, "dp02+")).toMatchObject({ measured: 5, outcome: "met" });
    expect(rowOf(table, "dp02-")).toMatchObject({ measured: 0, outcome: "met" });
    expect(rowOf(table, "dp01+").advice).toMatch(/^repeat in calmer weather/);
  });

  test("one averaged value hides them: it can break a limit, not keep it", () => {
    const averaged = checks({ before: [-1.4], after: [-1.2] });
    for (const symbol of ["dp01+", "dp01-", "dp02+", "dp02-", "dp0_of_min"]) {
      expect([symbol, outcome(averaged, symbol)]).toEqual([symbol, "cannot be judged"]);
    }
    expect(outcome(checks({ before: [-6], after: [-1.2, -1] }), "dp01-")).toBe("not met");
    expect(outcome(checks({ before: [-4.9], after: [-4.9] }), "dp0_of_min")).toBe("not met");
  });

  test("is signed indoors minus outdoors, however the gauge was connected", () => {
    const turned = checks({
      pressures: pressures.map((pressure) => -pressure),
      before: [1.2, 1.6, 1.4],
      after: [1, 1.4, 1.2],
      settings: [["pressure sign", "outdoors minus indoors"]],
    });
    expect(turned).toEqual(checks());
  });
});

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

describe("depressurization readings typed without their sign (a constructed case: true n50 0.640, read as a passing 0.596)", () => {
  const { signed_readings_Pa: signed, flows_m3_per_h: trapped, baseline_Pa: baseline } = trap;
  const unsigned = signed.map(Math.abs);
  const run = (readings: readonly number[], ...settings: [string, unknown][]) =>
    checks({
      pressures: readings,
      flows: trapped,
      before: [baseline, baseline],
      after: [baseline, baseline],
      settings,
    });

  test("are refused by row, since no statistic would notice", () => {
    expect(refusal(() => run(unsigned))).toMatchObject({
      code: "#VALUE!",
      message: expect.stringMatching(/^pressures, row 1: a depressurization reading is below 0/) as string,
    });
  });

  test("declared as magnitudes they are judged like the signed ones", () => {
    expect(run(unsigned, ["pressure sign", "magnitude"])).toEqual(run(signed));
    expect(symbolsWith(run(signed), "not met")).toEqual(["dp0_of_min"]);
  });
});

describe("whole tests of the uncertainty vectors", () => {
  function budget(index: number, direction: number, ...further: [string, unknown][]) {
    const { inputs } = vectors.budgets[index]!;
    const test = inputs.directions[direction]!;
    const openings: Record<string, { coefficient: number; exponent: number }> = inputs.openings;
    const indicated = test.fan_pressures.map((pressure, row) => flowOfFan(pressure, openings[test.opening[row]!]!));
    // The vectors give the averages; single readings spread by 0.3 Pa have the same ones.
    const single = (average: number) => column(average - 0.3, average, average + 0.3);
    const settings = [
      ["volume", inputs.volume],
      ["flow basis", "indicated at calibration density"],
      ["calibration density", inputs.calibration_density],
      ["indoor temperature", inputs.indoor_temperature],
      ["outdoor temperature", inputs.outdoor_temperature],
      ["barometric pressure", inputs.barometer],
      ...certificates,
      ...further,
    ];
    const readings = [column(...test.readings), column(...indicated)] as const;
    const ends = [test.baseline_before, test.baseline_after] as const;
    const run = (baseline: (average: number) => unknown[][]) =>
      validityChecks(test.direction, ...readings, baseline(ends[0]), baseline(ends[1]), settings);
    return { single: run(single), averaged: run((average) => column(average)) };
  }

  test.each([0, 1])("the calm test is valid, direction %d", (direction) => {
    const { single, averaged } = budget(0, direction, ["wind speed", 1.5], ["wind place", "near the ground"]);
    expect(symbolsWith(single, "not met")).toEqual([]);
    expect(symbolsWith(single, "cannot be judged")).toEqual([]);
    expect(outcome(single, "wind")).toBe("met");
    expect(passFail([[0.566]], [[0.6]], undefined, null, undefined, single)).toEqual([["pass"]]);
    expect(symbolsWith(averaged, "not met")).toEqual([]);
    expect(symbolsWith(averaged, "cannot be judged")).toEqual(["dp01+", "dp01-", "dp02+", "dp02-", "dp0_of_min"]);
  });

  test.each([0, 1])(
    "the windy test is not: baseline against the lowest pressure; wind and steps ask for a look, direction %d",
    (direction) => {
      const { single } = budget(1, direction, ["wind speed", 6], ["wind place", "near the ground"]);
      expect(symbolsWith(single, "not met")).toEqual(["dp0_of_min"]);
      expect(symbolsWith(single, "not met", "advisory")).toEqual(expect.arrayContaining(["dp_step", "wind"]));
      expect(passFail([[0.566]], [[0.6]], undefined, null, undefined, single)).toEqual([["not valid"]]);
    },
  );
});

describe("PASSFAIL with the table", () => {
  const verdict = (table: Table, result = 0.58, rule?: string, U?: number, decimals?: number): unknown => {
    const [uncertainty, rounding] = [U, decimals].map((value) => (value === undefined ? undefined : [[value]]));
    const verdicts: Table = passFail([[result]], [[0.6]], uncertainty, rule, rounding, table);
    return verdicts[0]?.[0];
  };
  const valid = checks();
  const broken = checks({ flows: [574, 320, 441, 364, 281] });
  const open = checks({ before: [-1.4] });

  test("valid, not valid and open tests are what they are meant to be", () => {
    expect([...symbolsWith(valid, "not met"), ...symbolsWith(valid, "cannot be judged")]).toEqual([]);
    expect(symbolsWith(broken, "not met")).toContain("r2");
    expect(symbolsWith(open, "not met")).toEqual([]);
    expect(symbolsWith(open, "cannot be judged")).not.toEqual([]);
  });

  test.each([
    ["plain", undefined, undefined, 0.58, "pass"],
    ["plain", undefined, undefined, 0.604, "fail"],
    ["plain", undefined, 1, 0.604, "pass"],
    ["plain", undefined, 1, 0.66, "fail"],
    ["plain", 0.05, undefined, 0.58, "pass"],
    ["guarded acceptance", 0.02, undefined, 0.58, "pass"],
    ["guarded acceptance", 0.03, undefined, 0.58, "not proven"],
    ["guarded acceptance", 0.03, undefined, 0.64, "fail"],
    ["guarded rejection", 0.03, undefined, 0.62, "pass"],
    ["guarded rejection", 0.03, undefined, 0.64, "fail"],
  ] as const)(
    "%s, U %s, decimals %s, %d: %s; never where the test is not valid or open",
    (rule, U, decimals, result, expected) => {
      expect(verdict(valid, result, rule, U, decimals)).toBe(expected);
      expect(verdict(broken, result, rule, U, decimals)).toBe("not valid");
      expect(refusal(() => verdict(open, result, rule, U, decimals)).code).toBe("#N/A");
    },
  );

  test("an open check is named, with what is missing", () => {
    expect(refusal(() => verdict(open)).message).toBe(
      'validity, row 3: "baseline before, mean of the positive readings" cannot be judged yet: ' +
        "give the single baseline readings before: one average hides its positive part",
    );
  });

  test("a check that is not met outweighs one that is open", () => {
    expect(verdict([...open, ...broken])).toBe("not valid");
  });

  test("both directions stand one below the other, headings and blank rows between them", () => {
    const up = checks({
      direction: "pressurization",
      pressures: pressures.map(Math.abs),
      settings: [["headings", "yes"]],
    });
    const gap = [Array.from({ length: 9 }, () => "")];
    expect(symbolsWith(up, "not met")).toEqual([]);
    expect(verdict([...valid, ...gap, ...up])).toBe("pass");
    expect(verdict([...up, ...gap, ...broken])).toBe("not valid");
    expect(refusal(() => verdict([...valid, ...open])).code).toBe("#N/A");
  });

  test("a cut table might hide what is not met, so it is refused", () => {
    const message = /the whole table of VALIDITYCHECKS is needed/;
    for (const cut of [
      broken.slice(0, 10),
      broken.slice(1),
      [...valid, ...broken.slice(0, 10)],
      broken.map((row) => row.slice(0, 8)),
    ]) {
      expect(refusal(() => verdict(cut))).toMatchObject({
        code: "#VALUE!",
        message: expect.stringMatching(message) as string,
      });
    }
    const sideBySide = valid.map((row, index) => [...row, ...broken[index]!]);
    expect(refusal(() => verdict(sideBySide)).code).toBe("#VALUE!");
    expect(refusal(() => verdict([...valid.slice(0, -1), valid[0]!])).code).toBe("#VALUE!");
  });

  test("an error of one direction reaches the verdict as it is", () => {
    const missing = [{ type: "Error", basicValue: "#N/A" }, ...Array.from({ length: 8 }, () => "")];
    expect(refusal(() => verdict([...valid, missing])).code).toBe("#N/A");
    expect(
      refusal(() => verdict([...valid, [{ type: "Error", basicValue: "#VALUE!" }, ...missing.slice(1)]])).code,
    ).toBe("#VALUE!");
  });

  test("advisory checks never decide", () => {
    const windy = checks({
      settings: [
        ["wind speed", 9],
        ["wind place", "near the ground"],
        ["beaufort", 6],
      ],
    });
    expect(symbolsWith(windy, "not met", "advisory")).toEqual(expect.arrayContaining(["wind", "beaufort"]));
    expect(verdict(windy)).toBe("pass");
  });
});
