import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { leaks } from "../../sample-workbooks/mid-construction/leaks";
import {
  house,
  openings,
  pointTests,
  quickTests,
  repairs,
  series,
  twoPointTest,
  worth,
} from "../../sample-workbooks/mid-construction/scenario";
import type { CellValue } from "../../src/workbook/index";
import { differenceByHand, fitByHand, holeArea, mean, referenceFactor } from "./leakage-by-hand";
import "./look-up";
import { partsOf, sheetParts } from "./parts";
import { errorsOf, sample, type Typed } from "./sample";

const { typed, typedCells } = sample("mid-construction.xlsx");
const asStored = typed();

const [first, second] = pointTests.map((test) => fitByHand(test, test.before, test.after, test.readings)) as [
  ReturnType<typeof fitByHand>,
  ReturnType<typeof fitByHand>,
];

/** A line of the Overview's summary, by its label. */
function summary(test: Typed, label: string): CellValue {
  for (let row = 6; row < 40; row++) if (test.cell(`Overview!J${row}`) === label) return test.cell(`Overview!K${row}`);
  throw new Error(`the Summary has no line "${label}"`);
}

/** Flow at 50 Pa of every step of the series, with its standard uncertainty. */
const steps = series.steps.map(([, , , pressure, baseline, flow]) => {
  const log = Math.log(50 / Math.abs(pressure - baseline));
  const q50 = flow * referenceFactor(series, first.n) * Math.exp(first.n * log);
  const own = Math.hypot(Math.abs(log) * first.nError, worth.repeat, worth.device);
  return { q50, u: q50 * own };
});

const uncertaintyOf = (fit: typeof first) => fit.q50 * Math.hypot(fit.logError, worth.device, worth.gauge * fit.n);

const clearedCells = (keep: (place: string) => boolean) =>
  Object.fromEntries(typedCells.filter((place) => !keep(place)).map((place) => [place, null]));

describe("multi-point tests, against the published formulas by hand", () => {
  it.each([
    ["Multi-point 1", first],
    ["Multi-point 2", second],
  ] as const)("%s gives flow, exponent and the short budget", (sheet, hand) => {
    expect(asStored.cell(`${sheet}!F33`)).toBeCloseToRelative(hand.q50);
    expect(asStored.cell(`${sheet}!F34`)).toBeCloseToRelative(hand.q50 / house.volume);
    expect(asStored.cell(`${sheet}!F35`)).toBeCloseToRelative(hand.n);
    expect(asStored.cell(`${sheet}!F36`)).toBeCloseToRelative(hand.nError);
    expect(asStored.cell(`${sheet}!F38`)).toBeCloseToRelative(hand.logError);
    expect(asStored.cell(`${sheet}!F41`)).toBeCloseToRelative(uncertaintyOf(hand));
  });

  it("leave out a reading whose use is no", () => {
    const [{ before, after, readings }] = pointTests;
    const without = fitByHand(pointTests[0], before, after, readings.slice(1));
    expect(typed({ "Multi-point 1!C21": "no" }).cell("Multi-point 1!F33")).toBeCloseToRelative(without.q50);
  });
});

describe("quick tests", () => {
  it("carry each reading to 50 Pa with the exponent assumed or typed, and say how far that doubt reaches", () => {
    quickTests.forEach((test, index) => {
      const [n, u] = test.exponent ?? [0.65, 0.057];
      const log = Math.log(50 / Math.abs(test.pressure - test.baseline));
      const q50 = test.flow * referenceFactor(test, n) * Math.exp(n * log);
      const row = 24 + index;
      expect(asStored.cell(`Quick tests!H${row}`)).toBeCloseToRelative(q50);
      expect(asStored.cell(`Quick tests!K${row}`)).toBeCloseToRelative(q50 * Math.abs(log) * u);
      expect(asStored.cell(`Quick tests!N${row}`)).toBeCloseToRelative(q50 / house.volume);
      const all = Math.hypot(log * u, worth.device, worth.gauge * n, worth.repeat);
      expect(asStored.cell(`Quick tests!O${row}`)).toBeCloseToRelative(q50 * all);
    });
  });

  it("at two pressures give exponent and flow from the means of the repeats", () => {
    const baseline = mean(twoPointTest.baseline);
    const [high, low] = [twoPointTest.high, twoPointTest.low].map((station) => ({
      pressure: mean(station.map(([pressure]) => Math.abs(pressure - baseline))),
      flow: mean(station.map(([, flow]) => flow)),
    })) as [{ pressure: number; flow: number }, { pressure: number; flow: number }];
    const n = Math.log(high.flow / low.flow) / Math.log(high.pressure / low.pressure);
    const q50 = high.flow * (50 / high.pressure) ** n * referenceFactor(twoPointTest, n);
    expect(asStored.cell("Two-point test!D30")).toBeCloseToRelative(n);
    expect(asStored.cell("Two-point test!F44")).toBeCloseToRelative(q50);
  });
});

describe("a reading of depressurization typed without its sign", () => {
  it("gives no flow by a quick test, the others stay", () => {
    const test = typed({ "Quick tests!D12": 51.1 });
    expect(test.cell("Quick tests!H28")).toMatchObject({ code: "#N/A" });
    expect(test.cell("Quick tests!H27")).toBe(asStored.cell("Quick tests!H27"));
  });

  it("gives no flow at two pressures", () => {
    const all = Object.fromEntries(
      twoPointTest.high.flatMap(([high], index) => [
        [`Two-point test!C${17 + index}`, -high],
        [`Two-point test!D${17 + index}`, -(twoPointTest.low[index]?.[0] ?? 0)],
      ]),
    );
    expect(typed(all).cell("Two-point test!D29")).not.toBeTypeOf("number");
    expect(typed(all).cell("Two-point test!F44")).not.toBeTypeOf("number");
  });

  it("gives no gain of its step", () => {
    const test = typed({ "Tape and retest!F17": 50.9 });
    expect(test.cell("Tape and retest!J17")).toMatchObject({ code: "#N/A" });
    expect(test.cell("Tape and retest!J18")).toBe(asStored.cell("Tape and retest!J18"));
  });
});

describe("a barometer that was not read", () => {
  it("is said to be assumed", () => {
    expect(asStored.cell("Multi-point 2!F42")).toBe("computed");
    expect(typed({ "Multi-point 2!F9": null }).cell("Multi-point 2!F42")).toBe("computed; 101 325 Pa assumed");
  });
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

describe("gap and forecast", () => {
  const allowed = 0.6 * house.volume;
  const sum = (ranges: typeof repairs, at: 1 | 2 | 3) => ranges.reduce((total, range) => total + range[at], 0);
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
    const best = second.q50 - 1.959963984540054 * u - sum(repairs, 3) + sum(openings, 2);
    const worst = second.q50 + 1.959963984540054 * u - sum(repairs, 2) + sum(openings, 3);
    expect(summary(asStored, "at best")).toBeCloseToRelative(best);
    expect(summary(asStored, "at worst")).toBeCloseToRelative(worst);
    expect(summary(asStored, "Likely, as the limit counts")).toBeCloseToRelative(likely / house.volume);
    expect(likely).toBeLessThan(allowed);
    expect(worst).toBeGreaterThan(allowed);
    expect(summary(asStored, "Outlook")).toBe("likely to meet the limit");
    expect(asStored.cell("Overview!B13")).toBe("LIKELY TO MEET");
  });

  it("turn with the criterion and with the test that they start from", () => {
    expect(summary(typed({ "Limits!C6": "Passive house, retrofit" }), "Outlook")).toBe("meets the limit even at worst");
    const earlier = typed({ "Gap and forecast!E6": "Multi-point 1" });
    expect(summary(earlier, "Outlook")).toBe("misses the limit even at best");
    const retested = typed({ "Gap and forecast!E6": "last retest" });
    expect(retested.cell("Gap and forecast!E7")).toBeCloseToRelative(steps.at(-1)!.q50);
    expect(retested.evaluation.addIn.depth).toBeLessThanOrEqual(3);
  });

  it("give no outlook over a volume that the criterion does not mean", () => {
    const other = typed({ "House and instruments!F7": "whole internal" });
    expect(other.cell("Overview!B13")).toBe("OPEN");
    expect(summary(other, "Outlook")).toBe("open");
  });
});

describe("the leak register", () => {
  const of = (trade: string, state?: string) =>
    leaks.filter((leak) => leak.trade === trade && (state === undefined || leak.state === state)).length;

  it("is a real table with filters, sorted and filtered though the sheet is protected", () => {
    const table = asStored.book.tables.find(({ name }) => name === "Leaks");
    expect(table?.columns).toContain("found by");
    expect(table?.area).toMatchObject({ top: 24, bottom: 64 });
    const bytes = readFileSync(new URL("../../sample-workbooks/mid-construction.xlsx", import.meta.url));
    const register = sheetParts(partsOf(bytes)).find(({ name }) => name === "Leak register");
    const protection = /<sheetProtection [^>]*>/.exec(register?.xml ?? "")?.[0];
    expect(protection).toContain('sheet="1"');
    expect(protection, "0 is allowed").toContain('sort="0" autoFilter="0"');
  });

  it("is counted by trade and state", () => {
    ["carpenter", "window fitter", "plumber", "ventilation", "electrician", "roofer"].forEach((trade, index) => {
      const row = 8 + index;
      expect(asStored.cell(`Leak register!D${row}`)).toBe(trade);
      ["open", "repaired", "retested", "accepted"].forEach((state, at) => {
        expect(asStored.cell(`Leak register!${"EFGH".charAt(at)}${row}`), `${trade}, ${state}`).toBe(of(trade, state));
      });
      expect(asStored.cell(`Leak register!I${row}`)).toBe(of(trade));
    });
    expect(asStored.cell("Leak register!I18")).toBe(leaks.length);
    expect(asStored.cell("Leak register!L8"), "by smoke").toBe(
      leaks.filter(({ foundBy }) => foundBy === "smoke").length,
    );
    expect(summary(asStored, "open")).toBe(leaks.filter(({ state }) => state === "open").length);
  });

  it("compares trades and ways as they stand, never as a number, a comparison or a pattern", () => {
    const names = ["2A", "<5", "a*", "9h", "=1"];
    const listed = names.map((name, index) => [`House and instruments!D${26 + index}`, name] as const);
    const used = names.map((name, index) => [`Leak register!F${26 + index}`, name] as const);
    const ways = names.flatMap((name, index) => [
      [`House and instruments!F${26 + index}`, name] as const,
      [`Leak register!G${26 + index}`, name] as const,
    ]);
    const renamed = typed(Object.fromEntries([...listed, ...used, ...ways]));
    expect(renamed.evaluation.cells.filter(({ outcome }) => !outcome.evaluated)).toEqual([]);
    names.forEach((name, index) => {
      expect(renamed.cell(`Leak register!I${8 + index}`), name).toBe(1);
      expect(renamed.cell(`Leak register!L${8 + index}`), name).toBe(1);
      const state = ["open", "repaired", "retested", "accepted"].indexOf(leaks[index]!.state);
      expect(renamed.cell(`Leak register!${"EFGH".charAt(state)}${8 + index}`), name).toBe(1);
    });
  });

  it("says where a leak has no trade that is counted", () => {
    expect(asStored.cell("Leak register!I19")).toBe(0);
    expect(typed({ "Leak register!F26": "gardener" }).cell("Leak register!I19")).toBe(1);
    expect(typed({ "Leak register!M26": null }).cell("Leak register!I19")).toBe(1);
  });
});

describe("an empty form", () => {
  const behindCharts = /(Overview![NO]|'Tape and retest'!A[H-N]|'Gap and forecast'![JK])\d+: #N\/A$/;

  it.each([false, true])("stays calm: nothing but the gaps of charts is an error (blank cells as zero: %s)", (zero) => {
    const empty = typed(
      clearedCells((place) => place.startsWith("Limits!") || place.startsWith("House and")),
      zero,
    );
    expect(errorsOf(empty).filter((error) => !behindCharts.test(error))).toEqual([]);
    expect(empty.cell("Overview!B13")).toBe("OPEN");
    expect(summary(empty, "Still to remove")).toBe("");
  });

  it.each([false, true])(
    "stays calm without house, instruments and criterion too (blank cells as zero: %s)",
    (zero) => {
      const empty = typed(
        clearedCells(() => false),
        zero,
      );
      expect(errorsOf(empty).filter((error) => !behindCharts.test(error))).toEqual([]);
      expect(empty.cell("Overview!B13")).toBe("OPEN");
    },
  );
});
