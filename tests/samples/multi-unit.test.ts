import { describe, expect, it } from "vitest";
import { testedUnits, units, worth, type Run, type TestedUnit } from "../../sample-workbooks/multi-unit/scenario";
import type { CellValue } from "../../src/workbook/index";
import { differenceByHand, fitByHand, mean } from "./leakage-by-hand";
import "./look-up";
import { errorsOf, sample, type Typed } from "./sample";

const { typed, typedCells } = sample("multi-unit.xlsx");
const asStored = typed();

/** Flow at 50 Pa of one run and its standard uncertainty, from the raw readings. */
function byHand(test: TestedUnit, run: Run): { q50: number; u: number; own: number } {
  const { n, q50, logError } = fitByHand(test, [run.before], [run.after], run.readings);
  const own = Math.hypot(logError, worth.gauge * n, worth.repeat);
  return { q50, u: q50 * Math.hypot(own, worth.device), own: q50 * own };
}

const hand = testedUnits.map((test) => ({
  name: test.unit,
  unit: units.find(({ name }) => name === test.unit)!,
  row: 8 + units.findIndex(({ name }) => name === test.unit),
  unguarded: byHand(test, test.unguarded),
  guarded: test.guarded && byHand(test, test.guarded),
}));

const guarded = hand.flatMap((one) => (one.guarded ? [{ ...one, guarded: one.guarded }] : []));
const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
const sumFlow = total(guarded.map((one) => one.guarded.q50));
const sumVolume = total(guarded.map(({ unit }) => unit.volume));

/** A line of the Overview's summary, by the start of its label; subscripts have no-break spaces beside them. */
function summary(test: Typed, label: string): CellValue {
  for (let row = 6; row < 25; row++) {
    const words = test.cell(`Overview!J${row}`);
    if (typeof words === "string" && words.replaceAll("\u00a0", " ").startsWith(label))
      return test.cell(`Overview!K${row}`);
  }
  throw new Error(`the Summary has no line "${label}"`);
}

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
      const both = [one.unguarded, one.guarded].map(({ q50, u }) => [q50, u] as const);
      const difference = differenceByHand(both[0]!, both[1]!, worth.device);
      expect(asStored.cell(`Results!I${one.row}`)).toBeCloseToRelative(difference.change);
      expect(asStored.cell(`Results!J${one.row}`)).toBeCloseToRelative(difference.uncertainty);
      expect(asStored.cell(`Results!M${one.row}`)).toBeCloseToRelative((100 * difference.change) / one.unguarded.q50);
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

describe("what would be wrong without a word", () => {
  it.each([
    ["a volume by another convention", { "Units!E26": "room by room" }, "not valid"],
    ["a criterion that asks for both directions", { "Criteria!C6": "Passive house, large building" }, "not valid"],
    ["a unit that stands in two blocks", { "Runs!B25": "G1" }, "not valid"],
    ["a run of a unit that is not in the building", { "Runs!B25": "X9" }, "not valid"],
    ["a run without a unit", { "Runs!B25": null }, "not valid"],
    ["a unit without its volume", { "Units!E8": null }, "open"],
    ["a run that gives no result", { "Runs!C18": null, "Runs!C19": null }, "open"],
    ["a criterion that is not chosen", { "Criteria!C6": null }, "open"],
    ["a barometer that was not read", { "Runs!F7": null }, "open"],
    ["a flow device without its calibration density", { "Instruments!C6": null }, "open"],
    ["a baseline above 5 Pa", { "Runs!C18": -5.4, "Runs!C19": -5.2, "Runs!C16": -32 }, "not valid"],
    [
      "a baseline that is more than a fifth of the lowest pressure",
      { "Runs!E18": -4.1, "Runs!E19": -4.1 },
      "not valid",
    ],
  ])("%s gives no verdict", (_, change, verdict) => {
    expect(summary(typed(change), "Verdict")).toBe(verdict);
  });

  it("a run whose readings miss a condition is not valid", () => {
    const low = Object.fromEntries(
      [10, 11]
        .map((row) => [
          [`Runs!E${row}`, null],
          [`Runs!F${row}`, null],
        ])
        .flat(),
    ) as Record<string, null>;
    const test = typed({ ...low, "Runs!E12": -45 });
    expect(test.cell("Results!S8")).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("a missing volume leaves the building's value blank instead of too high", () => {
    expect(summary(typed({ "Units!E8": null }), "Building, guarded")).toBe("");
  });
});

describe("the sample", () => {
  it("is recorded: tested units, share, positions that it leaves out, reasons", () => {
    expect(summary(asStored, "Units of the building")).toBe(units.length);
    expect(summary(asStored, "Units tested")).toBe(testedUnits.length);
    expect(summary(asStored, "Share of the units")).toBeCloseToRelative(5 / 9);
    const inSample = new Set(hand.map(({ unit }) => unit.position));
    const all = new Set(units.map(({ position }) => position));
    expect(summary(asStored, "Positions not in the sample")).toBe([...all].filter((one) => !inSample.has(one)).length);
    expect(asStored.cell("Units!H9")).toBe("no");
    expect(typed({ "Units!J8": null }).cell("Sampling!C14"), "tested units without a reason").toBe(1);
  });
});

describe("a unit whose position is not on the list", () => {
  const place = cellOf("ground, middle");
  it("is a gap in the sample while it is not tested", () => {
    expect(units.filter(({ position }) => position === "ground, middle")).toHaveLength(1);
    const asListed = summary(asStored, "Positions not in the sample");
    expect(summary(typed({ [place]: null }), "Positions not in the sample")).toBe(asListed);
    expect(summary(typed({ "Units!C9": null }), "Positions not in the sample")).toBe(asListed);
  });

  function cellOf(position: string): string {
    return `Sampling!B${Array.from({ length: 10 }, (_, index) => 18 + index).find((row) => asStored.cell(`Sampling!B${row}`) === position)}`;
  }
});

describe("names that a computer could read as a number or a time", () => {
  it("are names, of units and of positions", () => {
    const test = typed({ "Units!B8": "1A", "Runs!B7": "1A", "Units!C9": "2h", "Sampling!B19": "2h" });
    for (const label of ["Units tested", "Positions not in the sample", "Conditions", "Verdict"])
      expect(summary(test, label), label).toBe(summary(asStored, label));
  });

  it("are found to stand twice", () => {
    const test = typed({ "Units!B8": "1A", "Runs!B7": "1A", "Units!B9": "1A" });
    expect(test.cell("Units!I24")).toBe("a name stands twice");
    expect(summary(test, "Conditions")).toBe("not met");
  });
});

describe("an empty form", () => {
  it.each([
    [false, /^Criteria!/],
    [true, /^Criteria!/],
    [false, /^$/],
    [true, /^$/],
  ])("stays calm (blank cells as zero: %s; kept: %s)", (zero, keep) => {
    const cleared = Object.fromEntries(typedCells.filter((place) => !keep.test(place)).map((place) => [place, null]));
    const empty = typed(cleared, zero);
    expect(errorsOf(empty)).toEqual([]);
    expect(empty.cell("Overview!B13")).toBe("OPEN");
    expect(summary(empty, "Building, guarded")).toBe("");
  });
});
