import "../look-up";
import { describe, expect, it } from "vitest";
import { acceptOne, cell, check, condition, panelOnCover, summary, typed, without } from "../typed";
import { iecc } from "./final-test";

describe("what the cover says", () => {
  it("names the direction that has readings but no result", () => {
    const test = typed({ "Depressurization!F26": 310 });
    expect(panelOnCover(test)).toContain("Depressurization shows an error: see its sheet.");
    expect(panelOnCover(test)).not.toContain("Pressurization shows");
  });

  it("calls a direction without readings not tested", () => {
    const test = typed({ ...iecc, ...acceptOne, ...without("Pressurization") });
    expect(summary(test, "Verdict")).toBe("pass");
    expect(summary(test, "Air change rate n50, pressurization")).toBe("not tested");
    expect(check(test, 0, "q50_apart")[2]).toBe("cannot be judged");
    expect(condition(test, "Baselines of both directions")[2]).toBe("not tested");
    const results = test.book.sheets.findIndex(({ name }) => name === "Results");
    const errors = test.evaluation.cells.filter(
      ({ sheet, outcome }) =>
        (sheet === 0 || sheet === results) && !(outcome.evaluated && typeof outcome.value !== "object"),
    );
    expect(errors.map(({ address }) => address)).toEqual([]);
  });
});

describe("a result outside the readings", () => {
  it("above them gets no verdict", () => {
    const test = typed({ "Criteria!C6": "US Army Corps of Engineers" });
    expect(condition(test, "Criterion’s pressure reached")[2]).toBe("not met");
    expect(check(test, 0, "reach_pr")[2]).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("below them is looked into, and its uncertainty grows", () => {
    const test = typed({ "Criteria!C6": "England, Part L 2021, at 4 Pa" });
    expect(check(test, 0, "reach_pr")[2]).toBe("not met");
    expect(summary(test, "Conditions for a verdict")).toBe("met; 4 to look into");
    expect(summary(test, "Verdict")).toBe("pass");
    const share = (one: typeof test) =>
      (summary(one, "Expanded uncertainty") as number) / (summary(one, "Result that decides") as number);
    expect(share(test)).toBeGreaterThan(2 * share(typed({})));
  });
});

describe("the line beside the verdict names the first check that stands in its way", () => {
  it.each<[string, Parameters<typeof typed>[0], string]>([
    [
      "a check of this workbook",
      { "Rooms!D7": 9.35 },
      "not met. First: “Outlines that the rooms fill: least, most, %” on the sheet Results.",
    ],
    [
      "one that is open",
      { "Depressurization!C26": "no" },
      "First: “Readings left out have their reason” on the sheet Results.",
    ],
    [
      "a check of the standard",
      { "Firm!H15": 46000 },
      "First: “certificate of the flow device, days left on the test day” on the sheet Validity.",
    ],
    [
      "one that cannot be judged",
      { "Firm!H15": null },
      "First: “certificate of the flow device, days left on the test day” on the sheet Validity.",
    ],
  ])("%s", (_, change, words) => {
    expect(panelOnCover(typed(change))).toContain(words);
  });

  it("in the summary too", () => {
    const test = typed({ "Rooms!D7": 9.35 });
    expect(cell(test, "Results!K15")).toBe("Conditions for a verdict");
    expect(cell(test, "Results!M15")).toBe(
      "First: “Outlines that the rooms fill: least, most, %” on the sheet Results.",
    );
    expect(cell(typed({}), "Results!M15")).toBe("");
  });

  it("and none where none does", () => {
    expect(panelOnCover(typed({}))).toMatch(/Conditions for a verdict: met\.$/);
  });
});
