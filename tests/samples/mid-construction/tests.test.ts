import "../look-up";
import { describe, expect, it } from "vitest";
import {
  house,
  pointTests,
  quickTests,
  twoPointTest,
  worth,
} from "../../../sample-workbooks/mid-construction/scenario";
import { fitByHand, mean, referenceFactor } from "../leakage-by-hand";
import { errorsOf } from "../sample";
import { typed, asStored, first, second, summary, freedomOf, uncertaintyOf, clearedCells } from "./form";

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
    expect(asStored.cell(`${sheet}!F43`)).toBeCloseToRelative(freedomOf(hand));
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
