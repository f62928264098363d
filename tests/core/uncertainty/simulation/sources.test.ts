import { describe, expect, test } from "vitest";
import {
  baselineSources,
  ownSources,
  prepare,
  rowsOfMean,
  sharedSources,
  type PreparedTest,
} from "../../../../src/core";
import { refuses } from "../../refusals";
import { down } from "./prepared";

describe("sources", () => {
  const names = [
    "g_e",
    "o_e",
    "g_f",
    "o_f",
    "gamma_0",
    "gamma",
    "m",
    "theta_i",
    "theta_e",
    "p_bar",
    "phi_i",
    "phi_e",
    "stack",
    "size",
    "model",
  ] as const;
  const each = (width: number) => Array.from({ length: 8 }, () => width);
  const widths = {
    ...(Object.fromEntries(names.map((name, index) => [name, index + 1])) as Record<(typeof names)[number], number>),
    gamma: each(6),
    m: each(7),
  };

  test("each acts in its place; the openings have their own calibrations", () => {
    const shown = sharedSources(widths, 12, false);
    expect(shown.map(({ symbol, effect }) => [symbol, effect])).toEqual([
      ["g_e", "gaugeGain"],
      ["o_e", "offset"],
      ["g_f", "fanGain"],
      ["o_f", "fanZero"],
      ["gamma_0", "flowGain"],
      ...[..."ABCDEFGH"].map((letter) => [`gamma_${letter}`, "openingGain"]),
      ...[..."ABCDEFGH"].map((letter) => [`m_${letter}`, "openingExponent"]),
      ["theta_i", "indoorTemperature"],
      ["theta_e", "outdoorTemperature"],
      ["p_bar", "barometer"],
      ["phi_i", "indoorHumidity"],
      ["phi_e", "outdoorHumidity"],
      ["stack", "offset"],
      ["size", "size"],
      ["model", "extrapolation"],
    ]);
    expect(shown.find(({ symbol }) => symbol === "gamma_C")).toMatchObject({ opening: 2, uncertainty: 6 });
    for (const { symbol, degreesOfFreedom } of shown) expect(degreesOfFreedom).toBe(symbol === "size" ? 12 : Infinity);
  });

  test("one calibration for both gauges changes the two gains and nothing else", () => {
    const [apart, together] = [sharedSources(widths, 12, false), sharedSources(widths, 12, true)];
    expect(together.map(({ symbol }) => symbol)).toEqual(apart.map(({ symbol }) => symbol));
    together.forEach((source, index) => {
      const usual = apart[index]!;
      if (source.symbol === "g_e") expect(source).toEqual({ ...usual, effect: "bothGaugeGains" });
      else if (source.symbol === "g_f") expect(source).toEqual({ ...usual, uncertainty: 0 });
      else expect(source).toEqual(usual);
    });
  });

  const set = (uncertainty: number) => ({ uncertainty, degreesOfFreedom: 4 });

  test("baselines: of one direction or, without a mark, of both", () => {
    const own = baselineSources(set(0.6), set(0.2), "d");
    expect(own.map(({ symbol, effect, uncertainty }) => [symbol, effect, uncertainty])).toEqual([
      ["B1_d", "baselineBefore", 0.6],
      ["B2_d", "baselineAfter", 0.2],
    ]);
    const shared = baselineSources(set(0.6), undefined, "");
    expect(shared.map(({ symbol, uncertainty, degreesOfFreedom }) => [symbol, uncertainty, degreesOfFreedom])).toEqual([
      ["B1", 0.6, 4],
      ["B2", 0, Infinity],
    ]);
  });

  test("of one direction: movement of the baseline beyond its own uncertainty, wind", () => {
    const both = ownSources({ baselineBefore: -1, baselineAfter: 0 }, set(0.6), set(0), 0.3, "d");
    expect(both.map(({ symbol, effect }) => [symbol, effect])).toEqual([
      ["B_d", "baseline"],
      ["drift_d", "drift"],
      ["wind_d", "offset"],
    ]);
    // Moved by 1 Pa, of which 0.6 Pa may be its own uncertainty: 0.8 Pa are left.
    const expected = [0.4 / Math.sqrt(3), 0.8, 0.3 / Math.sqrt(3)];
    both.forEach(({ uncertainty }, index) => expect(uncertainty).toBeCloseTo(expected[index]!, 12));
    const timed = ownSources(
      { baselineBefore: -1, baselineAfter: 0, zeroFollowsTime: true },
      set(0.6),
      set(0),
      0.3,
      "d",
    );
    expect(timed.map(({ uncertainty }) => uncertainty > 0)).toEqual([true, false, true]);
    const one = ownSources({ baselineBefore: -1 }, set(0.6), undefined, 0.3, "p");
    expect(one.map(({ uncertainty }) => uncertainty)).toEqual([0, 0, 0.3 / Math.sqrt(3)]);
  });
});

describe("a test is prepared", () => {
  const { readings, ...rest } = down;
  refuses("invalid", [
    [
      "pressures, row 2: belowBaseline",
      () => prepare({ ...rest, readings: readings.map((one) => (one.row === 2 ? { ...one, pressure: -1.2 } : one)) }),
      { pressure: -1.2, baseline: -1.2 },
    ],
  ]);

  test("with the induced pressures as magnitudes", () => {
    expect(down.points.map(({ pressure }) => Math.round(pressure * 1e9) / 1e9)).toEqual([61, 52, 44, 33, 27, 19, 12]);
    // Without a baseline after the test, that before it counts alone.
    const open = Object.fromEntries(Object.entries(down).filter(([name]) => name !== "baselineAfter"));
    expect(prepare(open as unknown as PreparedTest).points[0]!.pressure).toBeCloseTo(60.8, 12);
  });
});

test("one source in both directions shows the larger uncertainty and the fewer degrees of freedom", () => {
  const row = (uncertainty: number, degreesOfFreedom: number) => ({
    symbol: "x",
    uncertainty,
    sensitivity: 1,
    degreesOfFreedom,
  });
  for (const pair of [
    [row(2, 9), row(4, 30)],
    [row(4, 30), row(2, 9)],
  ] as const) {
    expect(rowsOfMean(pair.map((one) => ({ rows: [one], weight: 0.5 })))).toEqual([
      { symbol: "x", uncertainty: 4, sensitivity: 0.75, degreesOfFreedom: 9 },
    ]);
  }
});
