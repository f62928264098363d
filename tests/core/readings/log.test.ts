import { describe, expect, test } from "vitest";
import { logStations, type Log, type Station } from "../../../src/core";
import { stationsByHand } from "../../authorities/support/stations";
import { refuses, takes } from "../refusals";

/** A log of one row a second. */
function log(pressures: readonly number[], more: Partial<Log> = {}): Log {
  return { times: Float64Array.from(pressures.keys()), pressures: Float64Array.from(pressures), ...more };
}
const at = (times: readonly number[], pressures: readonly number[]): Log => ({
  times: Float64Array.from(times),
  pressures: Float64Array.from(pressures),
});
/** Rows that go up and down by a tenth about a level. */
const about = (level: number, count: number) =>
  Array.from({ length: count }, (_, index) => level + (index % 2 ? 0.1 : -0.1));
const rows = (stations: readonly Station[]) => stations.map(({ firstRow, lastRow }) => [firstRow, lastRow]);
const column = (values: readonly number[]) => ({ fan: Float64Array.from(values) });
const many = (value: number, count: number) => Array<number>(count).fill(value);

describe("what a log must be", () => {
  const quiet = log(about(-50, 60));
  refuses("missing", [
    ["log: two rows or more are needed, 0 so far", () => logStations(log([]))],
    ["log: two rows or more are needed, 1 so far", () => logStations(log([1]))],
  ]);
  refuses("invalid", [
    [
      "log, row 3: the time 1 does not rise; past midnight the date is needed",
      () => logStations(at([0, 1, 1], [1, 1, 1])),
    ],
    [
      "log, row 9: the time 0.5 does not rise; past midnight the date is needed",
      () => logStations({ ...at([0, 1, 0.5], [1, 1, 1]), rows: Int32Array.from([2, 4, 9]) }),
    ],
    [
      "log, row 2: the time NaN does not rise; past midnight the date is needed",
      () => logStations(at([0, NaN, 2], [1, 1, 1])),
    ],
    [
      'settings: rows 0.005 apart could be seconds or days: give the "time unit"',
      () => logStations(at([0, 0.005], [1, 1])),
    ],
    [
      'settings: rows 0.05 apart could be seconds or days: give the "time unit"',
      () => logStations(at([0, 0.05], [1, 1])),
    ],
    ["tolerance: must be above 0 (got 0)", () => logStations(quiet, { tolerance: 0 })],
    ["shortest station: must be above 0 (got -1)", () => logStations(quiet, { shortest: -1 })],
    ["zero flow below: must be 0 or more", () => logStations(quiet, { zeroFlowBelow: -1 })],
    [
      "coefficients: must be above 0 (got 0)",
      () => logStations(quiet, { calibration: { coefficient: 0, exponent: 0.5, lowest: 20 } }),
    ],
    [
      "highest: 10 Pa lies below the lowest, 20 Pa",
      () => logStations(quiet, { calibration: { coefficient: 5, exponent: 0.5, lowest: 20, highest: 10 } }),
    ],
  ]);
  takes([
    [
      "a calibration with its highest pressure alone",
      () => logStations(quiet, { calibration: { coefficient: 5, exponent: 0.5, highest: 300 } }),
    ],
    [
      "a calibration with its lowest pressure alone",
      () => logStations(quiet, { calibration: { coefficient: 5, exponent: 0.5, lowest: 20 } }),
    ],
    ["a zero flow level of 0", () => logStations(quiet, { zeroFlowBelow: 0 })],
    [
      "rows a twentieth of a second apart, said to be seconds",
      () => logStations(at([0, 0.05], [1, 1]), { timeUnit: "seconds" }).length,
    ],
  ]);
});

describe("times", () => {
  const pressures = about(-50, 60);
  const spaced = (step: number) =>
    at(
      pressures.map((_, index) => index * step),
      pressures,
    );

  test("seconds or days are told by the interval, or by the setting", () => {
    const [second] = logStations(spaced(1));
    expect(second).toMatchObject({ start: 2, end: 57, duration: 55 });
    const [day] = logStations(spaced(1 / 86_400));
    expect(day!.duration).toBeCloseTo(55, 4);
    expect(day!.end).toBeCloseTo(57 / 86_400, 12);
    // A row an hour, as days; a row every 0.0049 could be nothing else than days.
    expect(logStations(spaced(1 / 24), { timeUnit: "days" })[0]!.duration).toBeCloseTo(55 * 3600, 3);
    expect(logStations(spaced(0.0049))[0]!.duration).toBeCloseTo(55 * 0.0049 * 86_400, 3);
    expect(logStations(spaced(0.051), { shortest: 2 })[0]!.duration).toBeCloseTo(55 * 0.051, 5);
    expect(logStations(spaced(0.005), { timeUnit: "days" })[0]!.duration).toBeCloseTo(55 * 432, 3);
  });

  test("the unit goes by the median interval where the intervals differ", () => {
    const gapped = pressures.map((_, index) => index * 0.001 + (index >= 30 ? 1 : 0));
    expect(logStations(at(gapped, pressures)).map(({ duration }) => duration > 1000)).toEqual([true, true]);
    // Four intervals, the middle two 0.0045 and 0.0065: their mean lies where the unit must be said.
    const four = [0, 0.0001, 0.0046, 0.0111, 1.0111];
    expect(() => logStations(at(four, [1, 1, 1, 1, 1]))).toThrow(/rows 0.0055\d* apart/);
    // Three intervals: the one in the middle of their order counts.
    expect(() => logStations(at([0, 0.004, 0.0092, 1], [1, 1, 1, 1]))).toThrow(/rows 0.0052\d* apart/);
  });

  test("a gap of more than five median intervals ends a station, one of five does not", () => {
    const with_ = (gap: number) => pressures.map((_, index) => (index < 30 ? index : index - 1 + gap));
    expect(rows(logStations(at(with_(5), pressures)))).toEqual([[3, 58]]);
    expect(rows(logStations(at(with_(5.01), pressures)))).toEqual([
      [3, 28],
      [33, 58],
    ]);
    // The same with one short interval among them, so that the median has to be looked for.
    const short = (gap: number) => with_(gap).map((time, index) => (index < 10 ? time : time - 0.9));
    expect(rows(logStations(at(short(5), pressures)))).toEqual([[3, 58]]);
    expect(rows(logStations(at(short(5.01), pressures)))).toEqual([
      [3, 28],
      [33, 58],
    ]);
    // Intervals that differ without a gap: 1 and 5 s by turns.
    const uneven = pressures.map((_, index) => 3 * index - (index % 2 ? 2 : 0));
    expect(rows(logStations(at(uneven, pressures)))).toEqual([[3, 58]]);
  });
});

describe("where stations begin and end", () => {
  test("a station lasts as long as the shortest one, without the two rows dropped at each end", () => {
    // 20 rows last 19 s; less four rows, 15 s.
    expect(rows(logStations(log(about(-50, 20))))).toEqual([[3, 18]]);
    expect(logStations(log(about(-50, 19)))).toEqual([]);
    expect(rows(logStations(log(about(-50, 19)), { shortest: 14 }))).toEqual([[3, 17]]);
    expect(logStations(log(about(-50, 4)), { shortest: 1 })).toEqual([]);
    expect(rows(logStations(log(about(-50, 6)), { shortest: 1 }))).toEqual([[3, 4]]);
  });

  test("twice the tolerance is within, more is not", () => {
    const step = (height: number) => log([...many(-50, 25), ...many(-50 - height, 25)]);
    expect(rows(logStations(step(3)))).toEqual([[3, 48]]);
    expect(rows(logStations(step(3.01)))).toEqual([
      [3, 23],
      [28, 48],
    ]);
    expect(rows(logStations(step(4), { tolerance: 2 }))).toEqual([[3, 48]]);
    // Up as well as down; and 0.3, written in binary numbers.
    expect(rows(logStations(step(-3.01)))).toEqual([
      [3, 23],
      [28, 48],
    ]);
    expect(rows(logStations(log([...many(0.1, 25), ...many(0.4, 25)]), { tolerance: 0.15 }))).toEqual([[3, 48]]);
  });

  test("of two windows of one length the earlier is taken; a longer one before both", () => {
    const three = log([...many(0, 30), ...many(10, 40), ...many(20, 30)]);
    expect(rows(logStations(three))).toEqual([
      [3, 28],
      [33, 68],
      [73, 98],
    ]);
    // A slow ramp: windows of one length overlap everywhere, the first takes its rows from the later ones.
    const ramp = Array.from({ length: 90 }, (_, index) => index * 0.1);
    const expected = stationsByHand([...ramp.keys()], ramp, 1.5, 15).map(([first, last]) => [first + 1, last + 1]);
    expect(expected.length).toBe(3);
    expect(rows(logStations(log(ramp)))).toEqual(expected);
  });

  test("one wild row does not end a station, but is noted", () => {
    const wild = about(-50, 40);
    wild[20] = -90;
    const [station] = logStations(log(wild));
    expect(rows([station!])).toEqual([[3, 38]]);
    expect(station!.notes).toEqual(["single rows far off"]);
    wild[20] = -53;
    expect(logStations(log(wild))[0]!.notes).toEqual([]);
    expect(logStations(log(wild), { tolerance: 1.4 })[0]!.notes).toEqual(["single rows far off"]);
    for (const end of [2, 37]) {
      const atEnd = about(-50, 40);
      atEnd[end] = -90;
      expect(logStations(log(atEnd))[0]!.notes).toContain("single rows far off");
    }
  });

  test("states end a station where they change", () => {
    const states = Uint8Array.from([...many(0, 30), ...many(1, 30)]);
    const stations = logStations(log(about(-50, 60), { states }));
    expect(rows(stations)).toEqual([
      [3, 28],
      [33, 58],
    ]);
    expect(stations.map(({ state }) => state)).toEqual(["zero flow", "fan running"]);
    const unknown = Uint8Array.from(many(255, 60));
    expect(logStations(log(about(-50, 60), { states: unknown }))[0]).not.toHaveProperty("state");
  });

  test("rows are told as they stand in the input", () => {
    const input = Int32Array.from(about(-50, 40).keys(), (index) => 2 * index + 5);
    expect(rows(logStations(log(about(-50, 40), { rows: input })))).toEqual([[9, 79]]);
  });
});

describe("what a station says", () => {
  test("rows that all show the same have the resolution's scatter, a/√12, where it is known (JCGM 100:2008 F.2.2.1)", () => {
    const flat = log(many(-50, 40));
    const [known, unknown] = [logStations(flat, { resolution: 0.1 })[0]!, logStations(flat)[0]!];
    expect(known.pressure.standardError).toBeCloseTo(0.1 / Math.sqrt(12), 14);
    expect(unknown.pressure).toMatchObject({ standardError: 0, deviation: 0, mean: -50, drift: 0, correlation: 0 });
    expect(known.notes).toEqual(["constant: scatter below the gauge's resolution"]);
    expect(logStations(log(about(-50, 40)), { resolution: 0.1 })[0]!.notes).toEqual([]);
  });

  test("a drift beyond the tolerance is noted, on either side; so are too few independent rows", () => {
    const rising = Array.from({ length: 60 }, (_, index) => index * 0.04 + (index % 2 ? 0.2 : -0.2));
    for (const side of [1, -1]) {
      const [station] = logStations(log(rising.map((value) => side * value)));
      expect(station!.pressure.drift * side).toBeCloseTo(55 * 0.04, 1);
      expect(station!.notes).toEqual(["drifts"]);
    }
    const slow = Array.from({ length: 40 }, (_, index) => 0.5 * Math.sin((index * Math.PI) / 20));
    expect(logStations(log(slow))[0]!.notes).toEqual(["too short"]);
  });

  test("the drift over uneven intervals is that of the least-squares line through the rows", () => {
    const times = Array.from({ length: 40 }, (_, index) => index + (index > 25 ? 3 * (index - 25) : 0));
    const pressures = times.map((time, index) => 0.01 * time + [0.2, -0.1, 0.05][index % 3]!);
    const kept = times.map((time, index) => [time, pressures[index]!] as const).slice(2, -2);
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b) / values.length;
    const [meanTime, meanPressure] = [mean(kept.map(([time]) => time)), mean(kept.map(([, pressure]) => pressure))];
    const slope =
      kept.reduce((sum, [time, pressure]) => sum + (time - meanTime) * (pressure - meanPressure), 0) /
      kept.reduce((sum, [time]) => sum + (time - meanTime) ** 2, 0);
    const [station] = logStations(at(times, pressures));
    expect(station!.pressure.drift).toBeCloseTo(slope * (kept.at(-1)![0] - kept[0]![0]), 12);
  });

  test("independent rows: s/√m, m − 1 degrees of freedom (JCGM 100:2008 4.2)", () => {
    const values = about(-50, 24);
    const { pressure } = logStations(log(values))[0]!;
    // 20 rows that alternate: neighbours are opposites, which never counts as more rows than there are.
    expect(pressure).toMatchObject({ count: 20, effectiveCount: 20, degreesOfFreedom: 19 });
    expect(pressure.deviation).toBeCloseTo(Math.sqrt((20 * 0.01) / 19), 12);
    expect(pressure.standardError).toBeCloseTo(pressure.deviation / Math.sqrt(20), 12);
    expect(pressure.correlation).toBeCloseTo(-0.95, 12);
  });

  test("correlated rows by the formula written out: φ = r + (1 + 4r)/m, m(1 − φ)/(1 + φ)", () => {
    const pattern = [0, 0.3, 0.5, 0.2, -0.1, -0.4, -0.2, 0.1];
    const values = Array.from({ length: 28 }, (_, index) => pattern[index % 8]! + (index % 3) * 0.1);
    const { pressure } = logStations(log(values))[0]!;
    const kept = values.slice(2, 26);
    const m = kept.length;
    const mean = kept.reduce((a, b) => a + b) / m;
    const d = kept.map((value) => value - mean);
    const squares = d.reduce((total, value) => total + value ** 2, 0);
    const r = d.slice(1).reduce((total, value, index) => total + value * d[index]!, 0) / squares;
    const phi = r + (1 + 4 * r) / m;
    expect(phi).toBeGreaterThan(0.1);
    const effective = (m * (1 - phi)) / (1 + phi);
    expect(pressure.mean).toBeCloseTo(mean, 13);
    expect(pressure.correlation).toBeCloseTo(r, 12);
    expect(pressure.effectiveCount).toBeCloseTo(effective, 10);
    expect(pressure.degreesOfFreedom).toBeCloseTo(effective - 1, 10);
    expect(pressure.standardError).toBeCloseTo(Math.sqrt(squares / (m - m / effective) / effective), 12);
  });

  describe("slow gusts under a fast flutter: neighbours hardly agree, but six batches of the last rows differ", () => {
    const levels = [0, 0.9, -0.7, 0.4, -0.9, 0.6];
    /** Batches of equal size after the rows that are left over, each at its level, every second row up by 1 and down by 1. */
    function gusts(count: number) {
      const size = Math.floor(count / 6);
      const batchOf = (row: number) => Math.max(0, Math.floor((row - (count - 6 * size)) / size));
      const kept = Array.from({ length: count }, (_, row) => levels[batchOf(row)]! + (row % 2 ? 1 : -1));
      const values = [1, -1, ...kept, 1, -1];
      const { pressure } = logStations(log(values), { tolerance: 3 })[0]!;
      const means = levels.map((__, batch) => {
        const rowsOfBatch = kept.slice(count - 6 * size + batch * size, count - 6 * size + (batch + 1) * size);
        return rowsOfBatch.reduce((a, b) => a + b) / size;
      });
      const middle = means.reduce((a, b) => a + b) / 6;
      const error = Math.sqrt(means.reduce((sum, mean) => sum + (mean - middle) ** 2, 0) / 5 / 6);
      return { pressure, error };
    }

    test.each([30, 35, 48])("%d rows: the error of the batch means, five degrees of freedom", (count) => {
      const { pressure, error } = gusts(count);
      expect(pressure.count).toBe(count);
      expect(pressure.standardError).toBeCloseTo(error, 12);
      expect(pressure.degreesOfFreedom).toBe(5);
    });

    test("29 rows are too few for batches", () => {
      const { pressure, error } = gusts(29);
      expect(pressure.count).toBe(29);
      expect(pressure.standardError).toBeLessThan(error);
      expect(pressure.degreesOfFreedom).toBe(28);
    });

    test("batches that say less do not count", () => {
      const values = about(-50, 64);
      const { pressure } = logStations(log(values))[0]!;
      expect(pressure.degreesOfFreedom).toBe(59);
      expect(pressure.standardError).toBeCloseTo(pressure.deviation / Math.sqrt(60), 12);
    });
  });

  test("rows that all show the same are as many as they are", () => {
    expect(logStations(log(many(-50, 40)))[0]!.pressure).toMatchObject({
      count: 36,
      degreesOfFreedom: 35,
      effectiveCount: 36,
    });
  });
});

describe("flow of a station", () => {
  const pressures = about(-50, 40);
  const calibration = { coefficient: 20, exponent: 0.5, lowest: 16, highest: 100 };
  const flowOf = (fan: readonly number[], terms: Parameters<typeof logStations>[1] = {}, states?: Uint8Array) =>
    logStations(log(pressures, { ...column(fan), ...(states && { states }) }), terms)[0]!;

  test("a log without a fan column has neither flow nor state", () => {
    const station = logStations(log(pressures))[0]!;
    expect(station).not.toHaveProperty("flow");
    expect(station).not.toHaveProperty("state");
  });

  test("fan pressures up to 1 Pa are a covered device at rest, flows of 0 are zero flow", () => {
    expect(flowOf(many(1, 40), { calibration })).toMatchObject({
      state: "zero flow",
      flow: { mean: 0, standardError: 0, count: 36 },
    });
    expect(flowOf(many(-1, 40), { calibration })).toMatchObject({ state: "zero flow" });
    expect(flowOf(many(1.01, 40), { calibration })).toMatchObject({ state: "fan running" });
    expect(flowOf(many(0, 40))).toMatchObject({ state: "zero flow", flow: { mean: 0 } });
    expect(flowOf(many(0.01, 40))).toMatchObject({ state: "fan running", flow: { mean: 0.01 } });
    expect(flowOf(many(30, 40), { calibration, zeroFlowBelow: 30 })).toMatchObject({ state: "zero flow" });
  });

  test("the ends of the calibrated range belong to it; one row beyond leaves the station without flow and says so", () => {
    expect(flowOf(many(16, 40), { calibration }).flow!.mean).toBeCloseTo(80, 12);
    expect(flowOf(many(100, 40), { calibration }).flow!.mean).toBeCloseTo(200, 12);
    const one = (value: number) => many(36, 40).map((usual, index) => (index === 20 ? value : usual));
    for (const value of [15.9, 100.1, -36]) {
      const station = flowOf(one(value), { calibration });
      expect(station).not.toHaveProperty("flow");
      expect(station.notes).toEqual(["no flow: rows outside the calibrated range of the fan: 1"]);
    }
    const open = { coefficient: 20, exponent: 0.5 };
    expect(flowOf(one(1e5), { calibration: open }).flow!.mean).toBeCloseTo((35 * 120 + 20 * Math.sqrt(1e5)) / 36, 9);
  });

  test("a row without a value, or a 0 while the fan runs, leaves the station without flow and says how many", () => {
    const two = (value: number) => many(36, 40).map((usual, index) => (index === 20 || index === 21 ? value : usual));
    expect(flowOf(two(0), { calibration }).notes).toEqual(["no flow: rows without it: 2"]);
    const blank = flowOf(two(NaN), { calibration });
    expect(blank.notes).toEqual(["no flow: rows without it: 2"]);
    expect(blank).not.toHaveProperty("state");
    expect(flowOf(two(0)).notes).toEqual(["no flow: rows without it: 2"]);
    const running = Uint8Array.from(many(1, 40));
    expect(flowOf(two(NaN), { calibration }, running)).toMatchObject({ state: "fan running" });
    // What lies in the two rows dropped at each end does not matter.
    const ends = many(36, 40).map((usual, index) => (index < 2 || index > 37 ? NaN : usual));
    expect(flowOf(ends, { calibration }).flow!.mean).toBeCloseTo(120, 12);
  });

  test("the log's own state counts before the fan column", () => {
    const covered = Uint8Array.from(many(0, 40));
    expect(flowOf(many(36, 40), { calibration }, covered)).toMatchObject({ state: "zero flow", flow: { mean: 0 } });
    expect(flowOf(many(36, 40), {}, covered)).toMatchObject({ state: "zero flow", flow: { mean: 36 } });
  });
});

test("four independent rows are enough for a station, three are not", () => {
  const notes = (count: number, apart: number) => {
    const times = Array.from({ length: count }, (_, index) => apart * index);
    return logStations(at(times, about(-50, count)), { timeUnit: "seconds" }).map((station) => station.notes);
  };
  // Two rows are dropped at each end, and 15 s are left.
  expect(notes(8, 5)).toEqual([[]]);
  expect(notes(7, 7.5)).toEqual([["too short"]]);
});
