import { describe, expect, it } from "vitest";
import { depressurization, pressurization } from "../../sample-workbooks/final-test/readings";
import { directionByHand, volumeByHand } from "./by-hand";
import "./look-up";
import { shownOnCover, summary, typed } from "./typed";

describe("the final test, recalculated", () => {
  it("chains at most three add-in calls between what is typed and the verdict", () => {
    const { calls, depth } = typed({}).evaluation.addIn;
    expect(depth).toBe(3);
    expect(calls).toBeLessThan(30);
  });

  it("gives the results of the published formulas, computed by hand from the same readings", () => {
    const test = typed({});
    const volume = volumeByHand();
    const hand = {
      depressurization: directionByHand("depressurization", depressurization),
      pressurization: directionByHand("pressurization", pressurization),
    };
    for (const direction of ["depressurization", "pressurization"] as const) {
      expect(summary(test, `Air change rate n50, ${direction}`)).toBeCloseToRelative(hand[direction].q50 / volume);
      expect(summary(test, `Flow exponent n, ${direction}`)).toBeCloseToRelative(hand[direction].n);
    }
    const mean = (hand.depressurization.q50 + hand.pressurization.q50) / 2;
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
    const leakier = typed(Object.fromEntries([...larger("Depressurization", 10), ...larger("Pressurization", 9)]));
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
    expect(summary(typed({ "Instruments!H9": 46_000 }), "Verdict")).toBe("not valid");
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

  it("leaves out a reading that is set to no, and says so", () => {
    const without = typed({ "Depressurization!C28": "no" });
    expect(summary(without, "Air change rate n50, depressurization")).not.toBeCloseToRelative(
      summary(typed({}), "Air change rate n50, depressurization") as number,
    );
    expect(summary(without, "Verdict")).toBe("pass");
  });

  it("stays open while a direction is half filled in", () => {
    const half = typed(
      Object.fromEntries(Array.from({ length: 9 }, (_, index) => [`Pressurization!D${24 + index}`, null])),
    );
    expect(summary(half, "Conditions for a verdict")).toBe("open; 2 to look into");
    expect(summary(half, "Verdict")).toBe("open");
    expect(summary(half, "Air change rate n50, mean")).toBe("");
    expect(shownOnCover(half)).toBe("OPEN");
  });
});

describe("a criterion that one direction is enough for", () => {
  const iecc = { "Criteria!C6": "IECC 2021, zones 3 to 8", "Rooms!E28": "whole internal" };
  const blank = (columns: readonly string[], first: number, last: number) =>
    Object.fromEntries(
      columns.flatMap((column) =>
        Array.from({ length: last - first + 1 }, (_, index) => [`Pressurization!${column}${first + index}`, null]),
      ),
    );

  it("is judged by the one direction that has readings", () => {
    const one = typed({ ...iecc, ...blank(["C", "D", "E", "F"], 24, 35), ...blank([..."DEFGHIJKLM"], 16, 17) });
    expect(summary(one, "Result that decides")).toBe(summary(one, "Air change rate n50, depressurization"));
    expect(summary(one, "Verdict")).toBe("pass");
  });

  it("is not judged while the other direction has readings that give an error", () => {
    const outOfRange = typed({ ...iecc, "Pressurization!F26": 310 });
    expect(summary(outOfRange, "Air change rate n50, pressurization")).toMatchObject({ code: "#N/A" });
    expect(summary(outOfRange, "Result that decides")).toBe("");
    expect(summary(outOfRange, "Verdict")).toBe("open");
  });
});
