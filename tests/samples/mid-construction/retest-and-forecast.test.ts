import "../look-up";
import { describe, expect, it } from "vitest";
import { leaks } from "../../../sample-workbooks/mid-construction/leaks";
import { house, openings, series, worth } from "../../../sample-workbooks/mid-construction/scenario";
import { differenceByHand, holeArea, referenceFactor } from "../leakage-by-hand";
import { studentBelow, studentQuantile } from "../student-by-hand";
import { typed, asStored, first, second, summary, freedomOf, uncertaintyOf, clearedCells } from "./form";

/** Flow at 50 Pa of every step of the series, with its standard uncertainty. */
const steps = series.steps.map(([, , , pressure, baseline, flow]) => {
  const log = Math.log(50 / Math.abs(pressure - baseline));
  const q50 = flow * referenceFactor(series, first.n) * Math.exp(first.n * log);
  const own = Math.hypot(Math.abs(log) * first.nError, worth.repeat, worth.device);
  return { q50, u: q50 * own };
});

describe("tape and retest", () => {
  it("gives what each step won, its uncertainty, its share of the first flow, and whether it is proved", () => {
    const words = steps.slice(1).map((step, index) => {
      const before = steps[index] as (typeof steps)[number];
      const row = 8 + index;
      const hand = differenceByHand([before.q50, before.u], [step.q50, step.u], worth.device);
      expect(asStored.cell(`Tape and retest!X${row}`)).toBeCloseToRelative(hand.change);
      expect(asStored.cell(`Tape and retest!Y${row}`)).toBeCloseToRelative(hand.uncertainty);
      expect(asStored.cell(`Tape and retest!AC${row}`)).toBeCloseToRelative((100 * hand.change) / steps[0]!.q50);
      expect(asStored.cell(`Tape and retest!AD${row}`)).toBe(hand.isSignificant ? "significant" : "not significant");
      return hand.isSignificant;
    });
    expect(words).toEqual([false, true, true, true, false, true, true, false, true]);
  });

  it("adds up: all steps together are the sum of the steps", () => {
    const rows = Array.from({ length: steps.length - 1 }, (_, index) => 8 + index);
    const sum = rows.reduce((total, row) => total + (asStored.cell(`Tape and retest!X${row}`) as number), 0);
    expect(asStored.cell("Tape and retest!X21")).toBeCloseToRelative(sum);
    expect(asStored.cell("Tape and retest!AD21")).toBe("significant");
  });

  it("names the hole that a gain stands for, and none where nothing was won", () => {
    const won = steps[1]!.q50 - steps[2]!.q50;
    expect(asStored.cell("Tape and retest!AE9")).toBeCloseToRelative(holeArea(won));
    expect(asStored.cell("Tape and retest!AF9")).toBeCloseToRelative(Math.sqrt((4 * holeArea(won)) / Math.PI) * 10);
    expect(asStored.cell("Tape and retest!AE16"), "the tape came off").toBe("");
  });

  it("proves the same gain no longer where repeating a test is worth 10 % only", () => {
    const doubtful = typed({ "House and instruments!F17": 0.1 });
    expect(doubtful.cell("Tape and retest!AD9")).toBe("not significant");
    expect(doubtful.cell("Tape and retest!X9")).toBe(asStored.cell("Tape and retest!X9"));
  });

  it("assumes no exponent in place of one whose test shows an error, and says where it does assume", () => {
    expect(asStored.cell("Tape and retest!P6")).toBe("measured");
    const faulty = typed({ "Multi-point 1!D24": "-43,9" });
    for (const place of ["N6", "O6"])
      expect(faulty.cell(`Tape and retest!${place}`), place).toMatchObject({ code: "#N/A" });
    for (const place of ["X9", "X21"]) expect(faulty.cell(`Tape and retest!${place}`), place).toBe("");
    const untested = typed(clearedCells((place) => !place.startsWith("Multi-point 1!")));
    expect(["N6", "O6", "P6"].map((at) => untested.cell(`Tape and retest!${at}`))).toEqual([0.65, 0.057, "assumed"]);
  });

  it("gives no gain over a step whose reading is text", () => {
    const faulty = typed({ "Tape and retest!H17": "397 m³/h" });
    expect(faulty.cell("Tape and retest!X8")).toBe(asStored.cell("Tape and retest!X8"));
    for (const place of ["X9", "X10", "X21"]) expect(typeof faulty.cell(`Tape and retest!${place}`)).toBe("object");
  });

  it("takes the step before the gap where a row was left out", () => {
    const gap = typed({ "Tape and retest!F18": null, "Tape and retest!H18": null, "Tape and retest!G18": null });
    expect(gap.cell("Tape and retest!X10")).toBe("");
    expect(gap.cell("Tape and retest!X11")).toBeCloseToRelative(steps[2]!.q50 - steps[4]!.q50);
  });
});

/** The planned repairs of the register. */
const repairs = leaks
  .filter(({ planned }) => planned === "yes")
  .map(({ place, likely = NaN, low = NaN, high = NaN }) => [place, likely, low, high] as const);

describe("gap and forecast", () => {
  const allowed = 0.6 * house.volume;
  const sum = (ranges: readonly (typeof repairs)[number][], at: 1 | 2 | 3) =>
    ranges.reduce((total, range) => total + range[at], 0);
  const u = uncertaintyOf(second);

  it("say what is to be removed, as a flow and as a hole", () => {
    const gap = second.q50 - allowed;
    expect(summary(asStored, "Flow that the limit allows")).toBeCloseToRelative(allowed);
    expect(summary(asStored, "Still to remove")).toBeCloseToRelative(gap);
    expect(summary(asStored, "in % of the flow now")).toBeCloseToRelative((100 * gap) / second.q50);
    expect(asStored.cell("Gap and forecast!E43")).toBeCloseToRelative(holeArea(gap));
    expect(summary(asStored, "As one round hole")).toBeCloseToRelative(Math.sqrt((4 * holeArea(gap)) / Math.PI) * 10);
    const holes = holeArea(gap) / (Math.PI * 1 ** 2);
    expect(asStored.cell("Gap and forecast!E46"), "holes of 20 mm").toBe(Math.ceil(holes));
  });

  it("forecast the final test: likely, best and worst", () => {
    const likely = second.q50 - sum(repairs, 1) + sum(openings, 1);
    const factor = Math.exp((studentQuantile(0.95, Math.floor(freedomOf(second))) * u) / second.q50);
    const best = second.q50 / factor - sum(repairs, 3) + sum(openings, 2);
    const worst = second.q50 * factor - sum(repairs, 2) + sum(openings, 3);
    expect(summary(asStored, "at best")).toBeCloseToRelative(best);
    expect(summary(asStored, "at worst")).toBeCloseToRelative(worst);
    expect(summary(asStored, "As planned, as the limit counts")).toBeCloseToRelative(likely / house.volume);
    expect(likely).toBeLessThan(allowed);
    expect(worst).toBeGreaterThan(allowed);
  });

  it("says how likely the final test is to meet the limit, and its words follow: the likely flow lies below the limit, and it can go either way all the same", () => {
    const means = [repairs, openings].map((ranges) =>
      ranges.reduce((total, [, likely, low, high]) => total + (low + likely + high) / 3, 0),
    ) as [number, number];
    const expected = second.q50 - means[0] + means[1];
    const variance = [...repairs, ...openings].reduce(
      (total, [, m, a, b]) => total + (a * a + m * m + b * b - a * m - a * b - m * b) / 18,
      u * u,
    );
    const freedom = Math.floor((variance ** 2 * freedomOf(second)) / u ** 4);
    const inHand = (Math.log(allowed / expected) * expected) / Math.sqrt(variance);
    const probability = studentBelow(inHand, freedom);
    expect(probability).toBeGreaterThan(0.5);
    expect(probability).toBeLessThan(0.7);
    const shown = summary(asStored, "Probability of meeting the limit") as number;
    expect(Math.abs(shown / probability - 1)).toBeLessThan(1e-8);
    expect(summary(asStored, "Outlook")).toBe("can go either way");
    expect(asStored.cell("Overview!B13")).toBe("CAN GO EITHER WAY");
    expect(asStored.cell("Overview!D16")).toContain(`meets the limit: ${(100 * shown).toFixed(1)} %`);
  });

  it.each([
    ["as delivered", {}, "CAN GO EITHER WAY"],
    ["little to come", { "Gap and forecast!C74": 1, "Gap and forecast!D74": 0, "Gap and forecast!E74": 2 }, undefined],
    ["more planned", { "Leak register!Q18": "yes", "Leak register!Q19": "yes" }, undefined],
    ["a wider limit", { "Limits!C6": "Passive house, retrofit" }, "MEETS WITH A MARGIN"],
    ["before the repairs", { "Gap and forecast!E6": "Multi-point 1" }, "MISSES BY A MARGIN"],
    ["from the last retest", { "Gap and forecast!E6": "last retest" }, undefined],
    ["nothing planned", { "Leak register!Q12": null, "Leak register!Q16": null, "Leak register!Q17": null }, undefined],
  ] as const)(
    "give a probability that the forecast’s table has too, with its words by the scale: %s",
    (_, changes, word) => {
      const changed = typed(changes);
      const scale = [
        [0, "misses the limit by a margin"],
        [0.025, "probably misses the limit"],
        [0.1, "can go either way"],
        [0.9, "probably meets the limit"],
        [0.975, "meets the limit with a margin"],
      ] as const;
      const probability = changed.cell("Gap and forecast!E103") as number;
      expect(probability).toBeCloseToRelative(changed.cell("Gap and forecast!D86") as number);
      expect(summary(changed, "Outlook")).toBe(scale.findLast(([from]) => probability >= from)?.[1]);
      expect(summary(changed, "Outlook")).toBe(changed.cell("Gap and forecast!D85"));
      if (word !== undefined) expect(changed.cell("Overview!B13")).toBe(word);
      // The scale is to be read on the sheet.
      scale.forEach(([from, words], index) => {
        expect(changed.cell(`Gap and forecast!C${106 + index}`)).toBe(from);
        expect(changed.cell(`Gap and forecast!E${106 + index}`)).toBe(words);
      });
    },
  );

  it("turn with the criterion and with the test that they start from", () => {
    expect(summary(typed({ "Limits!C6": "Passive house, retrofit" }), "Outlook")).toBe("meets the limit with a margin");
    const earlier = typed({ "Gap and forecast!E6": "Multi-point 1" });
    expect(summary(earlier, "Outlook")).toBe("misses the limit by a margin");
    const retested = typed({ "Gap and forecast!E6": "last retest" });
    expect(retested.cell("Gap and forecast!E7")).toBeCloseToRelative(steps.at(-1)!.q50);
    expect(retested.evaluation.addIn.depth).toBeLessThanOrEqual(3);
  });

  it("give no outlook over a volume that the criterion does not mean", () => {
    const other = typed({ "House and instruments!F7": "whole internal" });
    expect(other.cell("Overview!B13")).toBe("OPEN");
    expect(summary(other, "Outlook")).toBe("open");
  });

  it("give no outlook while readings of the example are left in another house", () => {
    const other = typed({ "Overview!C6": "Ash Lodge", "Overview!C7": "5 Dune End", "Overview!C8": "Ludo Marram" });
    expect(other.cell("Overview!B13")).toBe("OPEN");
    expect(other.cell("Overview!D16")).toBe("No outlook from the readings of another house.");
    expect(summary(other, "Outlook")).toBe("open");
    expect(summary(other, "Probability of meeting the limit")).toBe("open");
  });
});
