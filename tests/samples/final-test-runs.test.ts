import { describe, expect, it } from "vitest";
import { depressurization, pressurization } from "../../sample-workbooks/final-test/houses";
import type { CellValue } from "../../src/workbook/index";
import { slow } from "../time-outs";
import "./look-up";
import { studentBelow, studentQuantile } from "./student-by-hand";
import {
  acceptOne,
  cell,
  condition,
  filled,
  limitedRuns,
  panelOnCover,
  shownOnCover,
  summary,
  typed,
  without,
} from "./typed";
import { budgetByHand, meanBudgetByHand, withScatter } from "./uncertainty-by-hand";

const label = "Runs of one direction apart";
const tolerance = 1e-6;

function near(value: unknown, wanted: number): void {
  expect(typeof value).toBe("number");
  expect(Math.abs((value as number) / wanted - 1), `${String(value)} against ${wanted}`).toBeLessThan(tolerance);
}

/** A run through the next larger opening, so that it leaks about 1.9 times as much. */
function leakier(sheet: string, count: number): Record<string, CellValue> {
  const rows = Array.from({ length: count }, (_, index) => 24 + index);
  const fan = (row: number) => 0.446 * Number(cell(typed({}), `${sheet}!F${row}`));
  return Object.fromEntries(
    rows.flatMap((row): [string, CellValue][] => [
      [`${sheet}!E${row}`, "B"],
      [`${sheet}!F${row}`, fan(row)],
    ]),
  );
}

/** The pressurization once more as its second run, its fan pressures by a factor. */
function secondPressurization(factor: number): Record<string, CellValue> {
  const blocks = [
    ["CDEF", [24, 32]],
    ["DEFGHIJKLM", [16, 17]],
    ["FG", [7, 12]],
  ] as const;
  const places = blocks.flatMap(([letters, rows]) => Object.keys(filled("Pressurization", letters, rows)));
  return Object.fromEntries(
    places.map((place) => {
      const value = cell(typed({}), place);
      const isFan = /!F(2[4-9]|3\d)$/.test(place);
      return [place.replace("!", " 2!"), isFan ? factor * Number(value) : value];
    }),
  );
}

describe("two runs of one direction", { timeout: slow }, () => {
  it("are compared by what the criterion limits", () => {
    const test = typed({});
    const [one, other] = limitedRuns(test, "depressurization");
    const [shown, none, outcome] = condition(test, label);
    expect(shown).toBeCloseToRelative((200 * Math.abs(one - other)) / (one + other));
    expect([none, outcome]).toEqual(["", "met"]);
    expect(summary(test, "Verdict")).toBe("pass");
  });

  it("give no verdict where they are far apart, as 0.99 and 0.52 are, until one is emptied", () => {
    const apart = typed(leakier("Depressurization", 10));
    const [one, other] = limitedRuns(apart, "depressurization");
    expect(one).toBeGreaterThan(0.95);
    expect(one).toBeLessThan(1.03);
    expect(other).toBeLessThan(0.53);
    expect(condition(apart, label)[2]).toBe("not met");
    expect(summary(apart, "Verdict")).toBe("not valid");
    expect(shownOnCover(apart)).toBe("NOT VALID");
    expect(panelOnCover(apart)).toContain("Two runs of one direction are too far apart: test once more");
    const emptied = typed({ ...leakier("Depressurization", 10), ...without("Depressurization 2") });
    expect(condition(emptied, label)).toEqual(["", "", "not tested"]);
    expect(summary(emptied, "Verdict")).toBe("fail");
  });

  it("may be as far apart as the criteria say, and no verdict rests on a limit that is not there", () => {
    expect(condition(typed({ "Criteria!J11": 0.013 }), label)[2]).toBe("not met");
    expect(condition(typed({ "Criteria!J11": 0.014 }), label)[2]).toBe("met");
    const missing = typed({ "Criteria!J11": null });
    expect(condition(missing, label)[2]).toBe("open");
    expect(summary(missing, "Verdict")).toBe("open");
  });
});

describe("the scatter of the runs in the uncertainty of the result", { timeout: slow }, () => {
  const budget = () => meanBudgetByHand(depressurization, pressurization);

  it("counts with the degrees of freedom that two runs have, in both directions", () => {
    const test = typed(secondPressurization(1.09));
    const result = summary(test, "Result that decides") as number;
    const pairs = [limitedRuns(test, "depressurization"), limitedRuns(test, "pressurization")] as const;
    const { standard, freedom } = withScatter(budget(), pairs, result, 2);
    expect(freedom).toBeLessThan(40);
    const expanded = studentQuantile(0.95, freedom) * standard;
    near(summary(test, "Expanded uncertainty"), expanded * result);
    near(summary(test, "Upper limit of the result"), result * Math.exp(expanded));
    const alike = typed(secondPressurization(1));
    expect(summary(test, "Expanded uncertainty")).toBeGreaterThan(1.1 * Number(summary(alike, "Expanded uncertainty")));
  });

  it("counts whole where one direction decides, in the probability too", () => {
    const test = typed({ ...acceptOne, ...without("Pressurization"), "Criteria!I18": "either", "Criteria!E18": 0.54 });
    const result = summary(test, "Result that decides") as number;
    const pairs = [limitedRuns(test, "depressurization")] as const;
    const { standard, freedom } = withScatter(budgetByHand("depressurization", depressurization), pairs, result, 1);
    near(summary(test, "Expanded uncertainty"), studentQuantile(0.95, freedom) * standard * result);
    near(summary(test, "Probability"), studentBelow(Math.log(0.54 / result) / standard, freedom));
  });

  it("is nothing where every direction has one run", () => {
    const test = typed(without("Depressurization 2"));
    const { standard, freedom } = budget();
    const result = summary(test, "Result that decides") as number;
    near(summary(test, "Expanded uncertainty"), studentQuantile(0.95, freedom) * standard * result);
  });
});
