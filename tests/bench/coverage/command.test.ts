import { describe, expect, test } from "vitest";
import { readArguments } from "./arguments";
import { cases, type Case } from "./cases";
import { blockOf, endingOf, headingOf, jsonOf, type Counted } from "./print";
import { t95 } from "./student";
import type { Figures } from "./tally";

/** The cases that a command line chooses. */
function indicesOf(given: readonly string[]): readonly number[] {
  const asked = readArguments(["--coverage", ...given]);
  return asked.help ? [] : asked.indices;
}

describe("arguments", () => {
  test("without any, every case with 4000 tests", () => {
    expect(readArguments(["--coverage"])).toMatchObject({ tests: 4000, seed: 1, json: false });
    expect(indicesOf([])).toHaveLength(cases.length);
  });

  test("a scenario and a technique choose their cases", () => {
    const indices = indicesOf(["--scenario", "gusts", "--technique", "weighted"]);
    expect(indices.map((index) => cases[index]!.scenario.name)).toEqual(["gusts", "gusts", "gusts", "gusts"]);
    expect(new Set(indices.map((index) => cases[index]!.technique.technique))).toEqual(new Set(["weighted"]));
  });

  test.each([
    [["--tests", "3"], "--tests needs a whole number from 10"],
    [["--tests", "many"], "--tests needs a whole number from 10"],
    [["--seed", "1.5"], "--seed needs a whole number"],
    [["--scenario", "storm"], "no such scenario"],
    [["--scenario", "shared", "--technique", "weighted"], "no such scenario with such a technique"],
    [["calm"], "name options alone"],
  ])("%j is refused", (given, words) => {
    expect(() => readArguments(["--coverage", ...given])).toThrow(words);
  });
});

const good = { covered: 0.95, below: 0.02, above: 0.03, halfWidth: 0.05, halfWidthError: 0.01, errorOverStated: 1 };
const figures: Figures = {
  tests: 4000,
  refused: 0,
  intervals: { mean: good, n50: good, q50: good, n: { ...good, covered: 0.9 }, ELA4: { ...good, covered: 0.99 } },
  scatterOnly: good,
  significant: 0.07,
};
const counted: Counted[] = [{ of: cases[0]!, figures }];

const run = { seed: 7, tests: 4000, method: "1.2.3" };

describe("the table", () => {
  const text = [headingOf(run), blockOf(counted), endingOf(counted)].join("\n");

  test("names its size and its standard errors", () => {
    expect(text).toContain("standard errors of the half-widths: at most 1.0 % of them");
    expect(text).toContain("4000 simulated tests each, seed 7, method 1.2.3");
    expect(text).toContain("covered 0.34 (at 95 %), below and above 0.25 (at 2.5 %), called significant 0.34 (at 5 %)");
  });

  test("lists at its end what lies outside, and nothing else", () => {
    const [, list = ""] = text.split("Outside ");
    expect(list.split("\n").slice(1)).toEqual([
      "  calm, usual, ordinary: n, one direction 90.00",
      "  calm, usual, ordinary: ELA4, one direction 99.00",
      "  calm, usual, ordinary: called significant 7.00",
    ]);
  });

  test("says so where nothing lies outside, and where tests were refused", () => {
    const { n50 } = figures.intervals;
    const fine = { ...figures, significant: 0.05, intervals: { mean: n50, n50, q50: n50, n: n50, ELA4: n50 } };
    const of: Case = cases[0]!;
    expect(endingOf([{ of, figures: fine }])).toContain("Nothing lies outside 93.5 to 98.5 %");
    const refused = [{ of, figures: { ...fine, refused: 100, firstRefusal: "too windy" } }];
    expect(blockOf(refused)).toContain("100 of 4000 refused, the first: too windy");
    expect(endingOf(refused)).toContain("calm, usual, ordinary: 100 of 4000 refused");
  });

  test("as JSON holds the same figures", () => {
    const read = JSON.parse(jsonOf(counted, run)) as { rows: object[]; outside: string[] };
    expect(read.rows[0]).toMatchObject({ scenario: "calm", instruments: "usual", technique: "ordinary", tests: 4000 });
    expect(read.outside).toHaveLength(3);
  });
});

test.each([
  [1, 12.706205],
  [2, 4.302653],
  [3, 3.182446],
  [8, 2.306004],
  [30, 2.042272],
  [120, 1.97993],
  [1000, 1.962339],
  [Infinity, 1.959964],
])("t for %d degrees of freedom is %d, as tables of Student's distribution print it", (degrees, t) => {
  // Half of the last printed digit.
  expect(Math.abs(t95(degrees) - t)).toBeLessThan(5.1e-7);
});

test("t goes on smoothly where its expansion takes over", () => {
  // From 200 to 201 t falls by 2.3722/(200·201) + 2.8225·(200⁻² − 201⁻²) + 2.55·(200⁻³ − 201⁻³).
  expect(t95(200) - t95(201)).toBeCloseTo(5.9716e-5, 8);
});
