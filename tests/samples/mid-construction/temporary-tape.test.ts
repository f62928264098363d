import "../look-up";
import { describe, expect, it } from "vitest";
import { series } from "../../../sample-workbooks/mid-construction/scenario";
import type { CellValue } from "../../../src/workbook/index";
import { referenceFactor } from "../leakage-by-hand";
import { typed, asStored, first, summary } from "./form";

/** A row of the series, by its step. */
function step(
  no: number,
  [what, leak, kind, flow]: readonly [string, number | null, string | null, number],
): Record<string, CellValue> {
  const row = 15 + no;
  const cells = { C: what, D: leak, E: kind, F: -50.8, G: -1, H: flow };
  return Object.fromEntries(Object.entries(cells).map(([letter, value]) => [`Tape and retest!${letter}${row}`, value]));
}

/** Flow at 50 Pa of such a row. */
const flowOf = (flow: number) =>
  flow * referenceFactor(series, first.n) * Math.exp(first.n * Math.log(50 / Math.abs(-50.8 + 1)));

const weepHoles: Record<string, CellValue> = Object.fromEntries(
  Object.entries({
    B: 13,
    C: "ground floor",
    D: "Weep holes, brick front south",
    E: "wall",
    F: "plasterer",
    K: "open",
  }).map(([letter, value]) => [`Leak register!${letter}21`, value]),
);

const taped = step(10, ["Weep holes taped", 13, "temporary", 262]);
const untaped = step(11, ["Weep holes: tape off", 13, "tape off", 281]);
const tapedAgain = step(12, ["Weep holes taped again", 13, "temporary", 263]);
const fromRetest = { "Gap and forecast!E6": "last retest" };
const weepHolesTaped = { ...weepHoles, ...taped, ...untaped, ...tapedAgain, ...fromRetest };
const tapeLine = "Overview!B20";

describe("temporary tape", () => {
  it("enters neither the flow now, nor what was won, nor the forecast: weep holes taped, untaped and taped again", () => {
    const house = typed(weepHolesTaped);
    const honest = typed({ ...weepHoles, ...taped, ...untaped, ...fromRetest });
    expect(house.cell("Gap and forecast!E7")).toBeCloseToRelative(flowOf(281));
    for (const label of [
      "q50, retest without tape",
      "Won by tape and retest",
      "Still to remove",
      "Final test as planned, q50",
      "Probability of meeting the limit",
    ])
      expect(summary(house, label), label).toBeCloseToRelative(summary(honest, label) as number);
    expect(house.cell("Overview!B13")).not.toContain("MEETS");
    expect(house.cell("Tape and retest!S21")).toBe("Up to step 11, without temporary tape");
  });

  it("is named on the overview with its leak, and none is where none is on", () => {
    expect(asStored.cell(tapeLine)).toBe("Temporary tape on: none");
    const line = typed(weepHolesTaped).cell(tapeLine) as string;
    expect(line).toContain("Weep holes, brick front south (leak 13, step 12)");
    expect(line).toContain("the last one without it is step 11");
    expect(typed({ ...weepHoles, ...taped, ...untaped, ...fromRetest }).cell(tapeLine)).toBe("Temporary tape on: none");
  });

  it("counts once it is lasting", () => {
    const made = typed({ ...weepHolesTaped, ...step(13, ["Weep holes: mesh and seal", 13, "lasting", 264]) });
    expect(made.cell(tapeLine)).toBe("Temporary tape on: none");
    expect(made.cell("Gap and forecast!E7")).toBeCloseToRelative(flowOf(264));
  });

  it("is not taken off with another leak’s tape, nor without its leak’s number", () => {
    for (const leak of [6, null]) {
      const off = typed({ ...weepHolesTaped, ...step(13, ["Tape off", leak, "tape off", 280]) });
      expect(off.cell(tapeLine)).toContain("leak 13, step 12");
      expect(off.cell("Gap and forecast!E7")).toBeCloseToRelative(flowOf(281));
    }
    const nameless = typed({ ...step(10, ["Weep holes taped", null, "temporary", 262]), ...fromRetest });
    expect(nameless.cell(tapeLine)).toContain("Weep holes taped (step 10, leak number missing)");
    expect(nameless.cell("Gap and forecast!E7")).toBe(asStored.cell("Tape and retest!J24"));
  });

  it("leaves a later lasting repair out of the flow now as long as it is on", () => {
    const two = typed({ ...weepHolesTaped, ...step(13, ["Letterbox blanked off", 10, "lasting", 258]) });
    expect(two.cell("Gap and forecast!E7")).toBeCloseToRelative(flowOf(281));
    expect(two.cell("Overview!B20")).toContain("leak 13");
  });

  it("is asked for: a reading without a kind counts for nothing, and the overview says so", () => {
    const unknown = typed({ ...step(10, ["Weep holes taped", 13, null, 262]), ...fromRetest });
    expect(unknown.cell("Gap and forecast!E7")).toBe(asStored.cell("Tape and retest!J24"));
    expect(unknown.cell(tapeLine)).toContain("without a kind, which count for nothing: 1");
  });

  it("gives no flow now from a multi-point test that was run under it", () => {
    const under = typed({ "Gap and forecast!G20": "Weep holes" });
    expect(under.cell("Gap and forecast!E7")).toBe("");
    expect(under.cell("Overview!B13")).toBe("OPEN");
    expect(summary(under, "Outlook")).toBe("open");
    expect(under.cell(tapeLine)).toContain("Multi-point 2: Weep holes");
    const earlier = typed({ "Gap and forecast!G20": "Weep holes", "Gap and forecast!E6": "Multi-point 1" });
    expect(earlier.cell("Gap and forecast!E7")).toBe(asStored.cell("Multi-point 1!F33"));
  });
});
