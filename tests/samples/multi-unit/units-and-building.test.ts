import "../look-up";
import { describe, expect, it } from "vitest";
import { units, worth } from "../../../sample-workbooks/multi-unit/scenario";
import { differenceByHand, mean } from "../leakage-by-hand";
import { typed, asStored, hand, summary } from "./form";

const guarded = hand.flatMap((one) => (one.guarded ? [{ ...one, guarded: one.guarded }] : []));

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

const sumFlow = total(guarded.map((one) => one.guarded.q50));

const sumVolume = total(guarded.map(({ unit }) => unit.volume));

describe("units, against the published formulas by hand", () => {
  it("give both flows and their uncertainties", () => {
    for (const { row, unguarded, guarded, unit } of hand) {
      expect(asStored.cell(`Results!E${row}`)).toBeCloseToRelative(unguarded.q50);
      expect(asStored.cell(`Results!F${row}`)).toBeCloseToRelative(unguarded.u);
      expect(asStored.cell(`Results!O${row}`)).toBeCloseToRelative(unguarded.q50 / unit.volume);
      expect(asStored.cell(`Results!Q${row}`)).toBeCloseToRelative(unguarded.q50 / unit.envelopeArea);
      if (!guarded) continue;
      expect(asStored.cell(`Results!G${row}`)).toBeCloseToRelative(guarded.q50);
      expect(asStored.cell(`Results!H${row}`)).toBeCloseToRelative(guarded.u);
      expect(asStored.cell(`Results!R${row}`)).toBeCloseToRelative(guarded.q50 / unit.outerArea);
    }
  });

  it("give the leakage to the neighbours with its uncertainty, proved in all but one", () => {
    const words = guarded.map((one) => {
      const both = [one.unguarded, one.guarded].map(({ q50, u, freedom }) => [q50, u, freedom] as const);
      const difference = differenceByHand(both[0]!, both[1]!, worth.device);
      expect(asStored.cell(`Results!I${one.row}`)).toBeCloseToRelative(difference.change);
      expect(asStored.cell(`Results!J${one.row}`)).toBeCloseToRelative(difference.uncertainty);
      expect(asStored.cell(`Results!M${one.row}`)).toBeCloseToRelative((100 * difference.change) / one.unguarded.q50);
      expect(asStored.cell(`Results!AH${one.row}`)).toBeCloseToRelative(one.unguarded.freedom);
      expect(asStored.cell(`Results!AI${one.row}`)).toBeCloseToRelative(one.guarded.freedom);
      expect(asStored.cell(`Results!N${one.row}`)).toBe(difference.isSignificant ? "significant" : "not significant");
      return difference.isSignificant;
    });
    expect(words).toEqual([true, true, true, false]);
    const change = total(guarded.map((one) => one.unguarded.q50 - one.guarded.q50));
    expect(summary(asStored, "From the neighbours")).toBeCloseToRelative(change);
  });

  it("leave no difference where there is one run only, and blanks where there is none", () => {
    const alone = hand.find(({ guarded }) => !guarded)!;
    expect(asStored.cell(`Results!G${alone.row}`)).toBe("");
    expect(asStored.cell(`Results!I${alone.row}`)).toBe("");
    const untested = units
      .map(({ name }, index) => [name, 8 + index] as const)
      .filter(([name]) => !hand.some((one) => one.name === name));
    expect(untested.length).toBe(4);
    for (const [name, row] of untested) {
      expect(asStored.cell(`Results!B${row}`)).toBe(name);
      for (const letter of "EFGHIJKLMNOPQRSTU")
        expect(asStored.cell(`Results!${letter}${row}`), `${letter}${row}`).toBe("");
    }
  });

  it("have a verdict of their own as information", () => {
    for (const one of guarded)
      expect(asStored.cell(`Results!U${one.row}`)).toBe(one.guarded.q50 / one.unit.volume <= 2.5 ? "pass" : "fail");
    expect(guarded.map((one) => asStored.cell(`Results!U${one.row}`))).toEqual(["pass", "fail", "fail", "pass"]);
  });
});

describe("the building", () => {
  it("is the sum of the flows over the sum of the volumes, not the mean of the units", () => {
    const value = sumFlow / sumVolume;
    const ofUnits = mean(guarded.map(({ guarded, unit }) => guarded.q50 / unit.volume));
    expect(summary(asStored, "Building, guarded")).toBeCloseToRelative(value);
    expect(summary(asStored, "Mean of the units")).toBeCloseToRelative(ofUnits);
    expect(value, "the one passes, the other would not").toBeLessThan(2.5);
    expect(ofUnits).toBeGreaterThan(2.5);
    expect(summary(asStored, "Verdict")).toBe("pass");
    expect(asStored.cell("Overview!B13")).toBe("PASS");
    expect(asStored.cell("Overview!C18")).toContain(`guarded runs of ${guarded.length} of ${units.length} units`);
  });

  it("has an upper bound from unguarded runs, and a rate per outer area", () => {
    const bound = total(hand.map(({ unguarded }) => unguarded.q50)) / total(hand.map(({ unit }) => unit.volume));
    expect(summary(asStored, "Building, unguarded")).toBeCloseToRelative(bound);
    expect(summary(asStored, "Σq50 / Σ outer area")).toBeCloseToRelative(
      sumFlow / total(guarded.map(({ unit }) => unit.outerArea)),
    );
    const judgedByBound = typed({ "Results!T27": "unguarded" });
    expect(judgedByBound.cell("Results!T28")).toBeCloseToRelative(bound);
    expect(summary(judgedByBound, "Verdict")).toBe("fail");
    expect(judgedByBound.cell("Overview!C18")).toContain(`unguarded runs of ${hand.length} of ${units.length} units`);
  });

  it("counts the device's calibration once for all units, the rest of each in squares", () => {
    const own = Math.hypot(...guarded.map((one) => one.guarded.own)) / sumFlow;
    expect(asStored.cell("Results!T30")).toBeCloseToRelative(Math.hypot(own, worth.device));
    expect(asStored.cell("Results!T31")).toBeCloseToRelative((2 * Math.hypot(own, worth.device) * sumFlow) / sumVolume);
  });

  it("follows the quantity of the criterion", () => {
    const perArea = typed({ "Criteria!C6": "Phius" });
    expect(perArea.cell("Results!T28")).toBeCloseToRelative(sumFlow / total(guarded.map(({ unit }) => unit.outerArea)));
    expect(summary(perArea, "Verdict")).toBe("fail");
    expect(summary(typed({ "Criteria!C6": "US Army Corps of Engineers" }), "Verdict"), "at 75 Pa").toBe("open");
  });
});
