import { describe, expect, test } from "vitest";
import { logStations } from "../../../../src/core";
import { log, at, about, many } from "./logs";

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

test("four independent rows are enough for a station, three are not", () => {
  const notes = (count: number, apart: number) => {
    const times = Array.from({ length: count }, (_, index) => apart * index);
    return logStations(at(times, about(-50, count)), { timeUnit: "seconds" }).map((station) => station.notes);
  };
  // Two rows are dropped at each end, and 15 s are left.
  expect(notes(8, 5)).toEqual([[]]);
  expect(notes(7, 7.5)).toEqual([["too short"]]);
});
