import "../look-up";
import { describe, expect, it } from "vitest";
import { condition, panelOnCover, shownOnCover, summary, typed } from "../typed";
import { slow } from "../../time-outs";

describe("a criterion that is half filled", { timeout: slow }, () => {
  it.each([
    ["limit", { "Criteria!E18": null }],
    ["limit, being text,", { "Criteria!E18": "0,6" }],
    ["quantity", { "Criteria!C18": null }],
    ["pressure", { "Criteria!D18": null }],
  ])("without its %s leaves the test open and says so", (_, change) => {
    const test = typed(change);
    expect(summary(test, "Verdict")).toBe("open");
    expect(panelOnCover(test)).toContain("The criterion is not complete on the sheet Criteria.");
  });

  it("is not reproached where it is whole or not chosen", () => {
    for (const test of [typed({}), typed({ "Criteria!C6": null })])
      expect(panelOnCover(test)).not.toContain("not complete on");
  });
});

describe("a criterion that is not chosen", { timeout: slow }, () => {
  it("leaves the test open and says so; nothing is left without a value", () => {
    const test = typed({ "Criteria!C6": null });
    expect(test.evaluation.cells.filter(({ outcome }) => !outcome.evaluated)).toEqual([]);
    expect(shownOnCover(test)).toBe("OPEN");
    expect(panelOnCover(test)).toContain("No criterion chosen");
    expect(summary(test, "Verdict")).toBe("open");
    expect(summary(test, "Air change rate n50, mean")).toBe(summary(typed({}), "Air change rate n50, mean"));
  });
});

describe("a volume convention that is not chosen", { timeout: slow }, () => {
  it("leaves the test open: nothing is wrong with it yet", () => {
    const test = typed({ "Rooms!E28": null });
    expect(condition(test, "Volume convention")).toEqual(["", "room by room", "open"]);
    expect(summary(test, "Verdict")).toBe("open");
  });
});
