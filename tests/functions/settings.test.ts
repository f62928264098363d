import { describe, expect, test } from "vitest";
import packageFile from "../../package.json" with { type: "json" };
import { testResult } from "../../src/functions";
import { column, refusal } from "./errors";

const pressures = column(-61, -52, -41, -31, -22);
const flows = column(272, 243, 209, 172, 138);
const complete: [string, unknown][] = [
  ["volume", 420],
  ["flow basis", "actual at the fan"],
  ["indoor temperature", 21],
  ["outdoor temperature", 0],
];

const run = (settings: unknown[][]): unknown[][] =>
  testResult("depressurization", pressures, flows, column(-1), column(-1), settings);
const without = (label: string) => complete.filter(([name]) => name !== label);
const value = (table: unknown[][], symbol: string) => table.find((row) => row[1] === symbol)?.[2];

describe("settings", () => {
  test("labels in any order and letter case, blank rows allowed", () => {
    const other = [
      ["", ""],
      ...complete
        .slice()
        .reverse()
        .map(([name, cell]) => [name.toUpperCase(), cell]),
      [null, null],
      [0, 0],
    ];
    expect(run(other)).toEqual(run(complete));
  });

  test("an unknown label is an error that says which may have been meant", () => {
    expect(refusal(() => run([...complete, ["volum", 500]]))).toEqual({
      code: "#VALUE!",
      message: 'settings, row 5: unknown label "volum"; did you mean "volume"? The label "?" says where all are listed',
    });
  });

  test.each([
    ["temperature indoors", "indoor temperature"],
    ["barometer", "barometric pressure"],
    ["flow base", "flow basis"],
    ["cal density", "calibration density"],
    ["envelop area", "envelope area"],
    ["outdoor temprature", "outdoor temperature"],
    ["test day", "test date"],
  ])("%s: %s may have been meant, among three at most", (typed, meant) => {
    const { message } = refusal(() => run([...complete, [typed, 1]]));
    const asked =
      /did you mean (.*)\? The label "\?" says where all are listed$/.exec(message)?.[1]?.split(" or ") ?? [];
    expect(asked).toContain(`"${meant}"`);
    expect(asked.length).toBeLessThanOrEqual(3);
  });

  test("a label like none, and the label ?, are told where all are listed", () => {
    const where = 'listed on the add-in\'s page (Home, Stillair) under "Settings"';
    expect(refusal(() => run([...complete, ["zzz", 1]])).message).toBe(
      `settings, row 5: unknown label "zzz"; all are ${where}`,
    );
    expect(refusal(() => run([...complete, ["?", 1]])).message).toBe(`settings, row 5: the labels are ${where}`);
  });

  test.each([
    ["openings", "settings, row 5: openings: letters, one per reading, such as AAABBB, or names of"],
    ["standard", 'settings, row 5: standard: "?" is not one of: ISO 9972, EN 13829, '],
    [
      "extrapolation allowance",
      'settings, row 5: extrapolation allowance: a number is needed, or the word "none" (got ?)',
    ],
  ])("? as the value of %s is answered with what is taken there", (label, answer) => {
    expect(refusal(() => run([...complete, [label, "?"]])).message.slice(0, answer.length)).toBe(answer);
  });

  test("a label that stands twice is an error", () => {
    expect(refusal(() => run([...complete, ["Volume", 500]])).message).toBe('settings, row 5: "volume" appears twice');
  });

  test.each(["indoor temperature", "outdoor temperature"])("without %s the result is not yet there", (label) => {
    expect(refusal(() => run(without(label)))).toEqual({
      code: "#N/A",
      message: `settings: "${label}" is not given yet`,
    });
  });

  test("a missing setting that takes a word is named with the words it takes", () => {
    expect(refusal(() => run(without("flow basis")))).toEqual({
      code: "#N/A",
      message:
        'settings: "flow basis" is not given yet; it is one of: indicated at calibration density, actual at the fan, through the envelope',
    });
  });

  test("0 is an outdoor temperature but no volume", () => {
    expect(value(run(complete), "rho_e")).toBeGreaterThan(1.28);
    expect(value(run([...without("volume"), ["volume", 0]]), "n50")).toBe("");
  });

  test("what was assumed is written into the table", () => {
    const table = run(complete);
    const what = (symbol: string) => table.find((row) => row[1] === symbol)?.[0];
    expect(what("p_bar")).toBe("barometric pressure, assumed, none given");
    expect(run([...complete, ["altitude", 500]]).find((row) => row[1] === "p_bar")?.[0]).toBe(
      "barometric pressure, from the altitude",
    );
  });

  test.each([
    ["barometric pressure", 1013, /^settings: barometric pressure: between 50 000 and 110 000 Pa; did you type hPa\?/],
    ["indoor humidity", 50, /^settings, row 5: indoor humidity: a fraction from 0 to 1/],
    ["outdoor temperature", 300, /^settings: outdoor temperature: a temperature between/],
    ["confidence", 95, /^settings, row 5: confidence: a fraction/],
    ["exponent", 0.39, /^settings, row 5: exponent: from 0\.5 to 1, with some margin/],
    ["exponent", 1.11, /^settings, row 5: exponent: from 0\.5 to 1, with some margin/],
    ["flow basis", "cfm", /^settings, row 5: flow basis: "cfm" is not one of: indicated at calibration density, /],
  ])("%s %j is refused by name", (label, cell, message) => {
    const error = refusal(() => run([...without(label), ["headings", "no"], [label, cell]].slice(-5)));
    expect(error.message).toMatch(message);
  });

  test("a barometer reduced to sea level is told by the altitude", () => {
    expect(refusal(() => run([...complete, ["barometric pressure", 101325], ["altitude", 1500]])).message).toMatch(
      /was it reduced to sea level\?/,
    );
    expect(value(run([...complete, ["barometric pressure", 84000], ["altitude", 1500]]), "p_bar")).toBe(84000);
  });

  test("a calibration density in another unit is refused", () => {
    expect(
      refusal(() =>
        run([
          ...without("flow basis"),
          ["flow basis", "indicated at calibration density"],
          ["calibration density", 0.075],
        ]),
      ).message,
    ).toMatch(/are both in the same unit/);
  });

  test("a heading row only where asked for; the table keeps its shape", () => {
    expect(run(complete)).toHaveLength(41);
    expect(run([...complete, ["headings", "Yes"]])).toHaveLength(42);
    expect(run([...complete, ["reference pressure", 75]])).toHaveLength(41);
    expect(value(run([...complete, ["reference pressure", 50]]), "n_pr")).toBe(value(run(complete), "n50"));
  });

  test("the table closes with what a reviewer asks of it, behind every row that it had before", () => {
    expect(
      run(complete)
        .map((row) => row[1])
        .slice(-3),
    ).toEqual(["limits", "zeros_dp0", "method"]);
    expect(value(run(complete), "method")).toBe(packageFile.version);
    expect(
      run(complete)
        .find((row) => row[1] === "limits")
        ?.slice(0, 3),
    ).toEqual([
      "lower and upper hold the scatter only; for the full interval see the uncertainty budget",
      "limits",
      "scatter only",
    ]);
  });
});

describe("baseline readings that are exactly 0", () => {
  const withBaselines = (before: unknown[][], after?: unknown[][]) =>
    testResult("depressurization", pressures, flows, before, after, complete).find((row) => row[1] === "zeros_dp0");

  test("are counted over both sets, with what they may be", () => {
    expect(withBaselines(column(-1, 0, -1.2), column(-1, 0, -0.8))?.slice(0, 3)).toEqual([
      "baseline readings that are exactly 0: 2 of 6; blank cells arrive as 0 in some hosts",
      "zeros_dp0",
      2,
    ]);
    expect(withBaselines(column(0, 0), column(-1, -0.8))?.[2]).toBe(2);
  });

  test("are none where there are none, where the blanks arrive as blanks, and where every reading is 0", () => {
    const none = ["baseline readings that are exactly 0", "zeros_dp0", 0];
    expect(withBaselines(column(-1, -1.2), column(-1))?.slice(0, 3)).toEqual(none);
    expect(withBaselines(column(-1, "", null), column(-1, ""))?.slice(0, 3)).toEqual(none);
    expect(withBaselines(column(0, 0))?.slice(0, 3)).toEqual(none);
  });
});
