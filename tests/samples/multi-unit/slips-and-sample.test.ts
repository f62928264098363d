import "../look-up";
import { describe, expect, it } from "vitest";
import { testedUnits, units } from "../../../sample-workbooks/multi-unit/scenario";
import { errorsOf } from "../sample";
import { typed, typedCells, asStored, hand, summary } from "./form";

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
