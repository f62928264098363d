import { describe, expect, it } from "vitest";
import { depressurization, pressurization, secondDepressurization } from "../../sample-workbooks/final-test/houses";
import { directionByHand, volumeByHand } from "./by-hand";
import "./look-up";
import { acceptOne, condition, filled, shownOnCover, summary, typed, without } from "./typed";

describe("the final test, recalculated", () => {
  it("chains at most three add-in calls between what is typed and the verdict", () => {
    expect(typed({}).evaluation.addIn.depth).toBe(3);
  });

  it("gives the results of the published formulas, computed by hand from the same readings", () => {
    const test = typed({});
    const volume = volumeByHand();
    const first = directionByHand("depressurization", depressurization);
    const second = directionByHand("depressurization", secondDepressurization);
    const other = directionByHand("pressurization", pressurization);
    const depressurized = (first.q50 + second.q50) / 2;
    expect(summary(test, "Air change rate n50, depressurization")).toBeCloseToRelative(depressurized / volume);
    expect(summary(test, "Air change rate n50, pressurization")).toBeCloseToRelative(other.q50 / volume);
    expect(summary(test, "Flow exponent n, depressurization")).toBeCloseToRelative(first.n);
    expect(summary(test, "Flow exponent n, pressurization")).toBeCloseToRelative(other.n);
    const mean = (depressurized + other.q50) / 2;
    expect(summary(test, "Air change rate n50, mean")).toBeCloseToRelative(mean / volume);
    expect(summary(test, "Air leakage rate q50, mean")).toBeCloseToRelative(mean);
    expect(summary(test, "Internal volume, room by room")).toBeCloseToRelative(volume);
  });
});

describe("the verdict", () => {
  it("is pass for the readings as they stand", () => {
    expect(summary(typed({}), "Verdict")).toBe("pass");
    expect(shownOnCover(typed({}))).toBe("PASS");
    expect(summary(typed({}), "Conditions for a verdict")).toBe("met");
  });

  it("turns to fail when the house leaks three times as much", () => {
    const rows = Array.from({ length: 12 }, (_, index) => 24 + index);
    const larger = (sheet: string, count: number) =>
      rows.slice(0, count).map((row) => [`${sheet}!E${row}`, "B"] as const);
    const leakier = typed(
      Object.fromEntries([
        ...larger("Depressurization", 10),
        ...larger("Depressurization 2", 10),
        ...larger("Pressurization", 9),
      ]),
    );
    expect(summary(leakier, "Conditions for a verdict")).toBe("met");
    expect(summary(leakier, "Air change rate n50, mean")).toBeGreaterThan(1.3);
    expect(summary(leakier, "Verdict")).toBe("fail");
    expect(shownOnCover(leakier)).toBe("FAIL");
  });

  it("is not given over a volume that the criterion does not mean", () => {
    const test = typed({ "Rooms!E28": "whole internal" });
    expect(summary(test, "Conditions for a verdict")).toBe("not met; 1 to look into");
    expect(summary(test, "Verdict")).toBe("not valid");
    expect(shownOnCover(test)).toBe("NOT VALID");
  });

  it("is not given on the day after a certificate has run out", () => {
    expect(summary(typed({ "Firm!H15": 46_000 }), "Verdict")).toBe("not valid");
  });

  it("follows the criterion's quantity, pressure and limit", () => {
    const perArea = typed({ "Criteria!C6": "US Army Corps of Engineers" });
    expect(summary(perArea, "Limit of the criterion")).toBeCloseToRelative(0.25 * 0.3048 * 60);
    const q50 = summary(perArea, "Air leakage rate q50, mean") as number;
    const area = summary(perArea, "Envelope area") as number;
    expect(summary(perArea, "Result that decides")).toBeGreaterThan((q50 / area) * 1.2);
    expect(summary(perArea, "Verdict"), "no reading reaches 75 Pa").toBe("not valid");
    expect(summary(typed({ "Criteria!C6": "Phius" }), "Limit of the criterion")).toBeCloseToRelative(1.09728);
    expect(summary(typed({ "Criteria!C6": "Phius" }), "Verdict")).toBe("pass");
  });

  it("rounds to the decimals of the limit only where the criteria sheet says so", () => {
    expect(summary(typed({ "Criteria!E18": 0.5 }), "Verdict")).toBe("fail");
    expect(summary(typed({ "Criteria!E18": 0.5, "Criteria!G18": 1 }), "Verdict")).toBe("pass");
  });

  it("is not given for a leakage area at a pressure that no row of the whole test is for", () => {
    expect(summary(typed({ "Criteria!C6": "R-2000, leakage area" }), "Verdict")).toBe("pass");
    expect(summary(typed({ "Criteria!C6": "R-2000, leakage area", "Criteria!D30": 4 }), "Verdict")).toBe("open");
  });

  it("leaves out a reading that is set to no, once its reason is typed", () => {
    const leftOut = { "Depressurization!C28": "no" };
    const silent = typed(leftOut);
    expect(condition(silent, "Readings left out")).toEqual(["missing", "given", "open"]);
    expect(summary(silent, "Verdict")).toBe("open");
    const explained = typed({ ...leftOut, "Depressurization!U28": "door opened" });
    expect(summary(explained, "Verdict")).toBe("pass");
    const readings = depressurization.readings.filter((_, index) => index !== 4);
    const first = directionByHand("depressurization", { ...depressurization, readings });
    const second = directionByHand("depressurization", secondDepressurization);
    const n50 = (first.q50 + second.q50) / 2 / volumeByHand();
    expect(summary(explained, "Air change rate n50, depressurization")).toBeCloseToRelative(n50);
  });

  it("stays open while a direction is half filled in", () => {
    const half = typed(filled("Pressurization", "D", [24, 32]));
    expect(summary(half, "Verdict")).toBe("open");
    expect(summary(half, "Air change rate n50, mean")).toBe("");
    expect(shownOnCover(half)).toBe("OPEN");
    const flows = typed(filled("Pressurization", "F", [24, 32]));
    expect(summary(flows, "Verdict")).toBe("open");
    expect(summary(flows, "Air change rate n50, mean")).toMatchObject({ code: "#N/A" });
    expect(shownOnCover(flows)).toBe("OPEN");
  });
});

describe("a criterion that one direction is enough for", () => {
  const iecc = { "Criteria!C6": "IECC 2021, zones 3 to 8", "Rooms!E28": "whole internal" };
  it("is judged by the one direction that has readings, where one is accepted", () => {
    const alone = { ...iecc, ...without("Pressurization") };
    const refused = typed(alone);
    expect(summary(refused, "Result that decides")).toBe("");
    expect(summary(refused, "Verdict")).toBe("open");
    const one = typed({ ...alone, ...acceptOne });
    expect(summary(one, "Result that decides")).toBe(summary(one, "Air change rate n50, depressurization"));
    expect(summary(one, "Verdict")).toBe("pass");
  });

  it("is not accepted where the criterion asks for both", () => {
    const one = typed({ ...acceptOne, ...without("Pressurization") });
    expect(condition(one, "Directions with readings")[2]).toBe("open");
    expect(summary(one, "Verdict")).toBe("open");
  });

  it("is not judged while the other direction has readings that give an error", () => {
    const outOfRange = typed({ ...iecc, "Pressurization!F26": 310 });
    expect(summary(outOfRange, "Air change rate n50, pressurization")).toMatchObject({ code: "#N/A" });
    expect(summary(outOfRange, "Result that decides")).toMatchObject({ code: "#N/A" });
    expect(summary(outOfRange, "Verdict")).toBe("open");
  });
});
