import "../look-up";
import { describe, expect, it } from "vitest";
import { acceptOne, cell, check, condition, filled, panelOnCover, summary, typed, without } from "../typed";

describe("the budget that decides", () => {
  const windOf = (wind: number | null) =>
    Object.fromEntries(["Depressurization", "Depressurization 2", "Pressurization"].map((run) => [`${run}!F12`, wind]));
  const warnings = "Warnings of the budget that decides";

  it("has no warnings in calm weather", () => {
    expect(condition(typed({}), warnings)).toEqual([0, null, "met"]);
  });

  it("is looked into where the wind was not read", () => {
    const test = typed(windOf(null));
    expect(condition(test, warnings)).toEqual([1, null, "look into it"]);
    expect(summary(test, "Conditions for a verdict")).toBe("met; 1 to look into");
  });

  it("says on the cover that no uncertainty can be given in a wind too strong for the readings", () => {
    const test = typed(windOf(20));
    expect(condition(test, warnings)).toEqual(["no uncertainty", null, "look into it"]);
    expect(panelOnCover(test)).toContain("No uncertainty can be given: see the sheet Uncertainty.");
    expect(summary(test, "Expanded uncertainty")).toBe("");
    expect(panelOnCover(typed({}))).not.toContain("No uncertainty");
    const guarded = typed({ ...windOf(20), "Criteria!J10": "guarded acceptance" });
    expect(summary(guarded, "Verdict")).toBe("open");
  });

  it("of one direction alone says so too", () => {
    const test = typed({ ...windOf(20), ...acceptOne, ...without("Pressurization"), "Criteria!I18": "either" });
    expect(condition(test, warnings)).toEqual(["no uncertainty", null, "look into it"]);
    expect(panelOnCover(test)).toContain("No uncertainty can be given");
  });

  it("is missed where a direction has its second run alone, since the budgets are those of the first runs", () => {
    const test = typed({
      ...acceptOne,
      ...without("Depressurization"),
      ...without("Pressurization"),
      "Criteria!I18": "either",
    });
    expect(summary(test, "Verdict")).toBe("pass");
    expect(condition(test, warnings)).toEqual(["no uncertainty", null, "look into it"]);
    expect(panelOnCover(test)).toContain("No uncertainty can be given");
  });

  it("is not asked for while nothing is tested", () => {
    const runs = ["Depressurization", "Depressurization 2", "Pressurization"];
    const test = typed(Object.assign({}, ...runs.map(without)) as Parameters<typeof typed>[0]);
    expect(condition(test, warnings)).toEqual(["", null, "not tested"]);
    expect(panelOnCover(test)).not.toContain("No uncertainty");
  });
});

describe("certificates", () => {
  it.each([
    ["envelope pressure gauge", 13, "gauge_days"],
    ["fan pressure gauge", 14, "gauge_days"],
    ["flow device", 15, "fan_days"],
  ])("of the %s must be there", (_, row, symbol) => {
    const test = typed(filled("Firm", "CDEFGH", [row, row]));
    expect(cell(test, `Firm!I${row}`)).toBe("missing");
    expect(check(test, 0, symbol)[2]).toBe("cannot be judged");
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("dated after the test day are found, though they have not run out", () => {
    const test = typed({ "Firm!G15": 46_400 });
    expect(check(test, 0, "fan_days")[2]).toBe("met");
    expect(condition(test, "Further certificates")).toEqual(["dated after the test", null, "not met"]);
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("of a further instrument count as soon as any of its cells is filled", () => {
    const test = typed({ "Firm!D19": "X-1" });
    expect(cell(test, "Firm!I19")).toBe("date missing");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("cannot be judged without the day of the test, and the cover says so", () => {
    const test = typed({ "Cover!G6": null });
    expect(condition(test, "Further certificates")).toEqual(["no test day", null, "open"]);
    expect(check(test, 2, "gauge_days")[2]).toBe("cannot be judged");
    expect(panelOnCover(test)).toContain("Day of the test missing.");
  });

  it("without a range for the opening in use leave the flow without a value", () => {
    const test = typed({ "Firm!F25": null });
    expect(condition(test, "Certified range")).toEqual(["missing", "missing", "open"]);
    expect(cell(test, "Depressurization!L24")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("open");
  });
});
