import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { logStations, studentT } from "../../src/core";
import { expectAgreement } from "./support/compare";
import { autoregression, stationsByHand } from "./support/stations";
import vectors from "./uncertainty-vectors/vectors.json";

const FIFTY_DIGITS = "rounded to 15 digits, computed in fifty";

const logOf = (times: readonly number[], pressures: readonly number[]) => ({
  times: Float64Array.from(times),
  pressures: Float64Array.from(pressures),
});

describe.each(vectors.stations)(
  "the log of the vectors",
  ({ interval_s, tolerance, shortest, pressures, expected }) => {
    const times = pressures.map((_, index) => index * interval_s);
    const stations = logStations(logOf(times, pressures), { tolerance, shortest });

    test("gives these stations and no others", () => {
      expect(stations.map(({ firstRow, lastRow }) => [firstRow, lastRow])).toEqual(
        expected.map(({ first_row, last_row }) => [first_row, last_row]),
      );
    });

    test.each(expected.map((station, index) => ({ ...station, index })))("rows $first_row to $last_row", (station) => {
      const { pressure } = stations[station.index]!;
      expect(pressure.count).toBe(station.count);
      expectAgreement(pressure.mean, station.mean, 1e-12, FIFTY_DIGITS);
      expectAgreement(pressure.deviation, station.sd, 1e-11, FIFTY_DIGITS);
      expectAgreement(pressure.drift, station.drift, 1e-11, FIFTY_DIGITS);
      expectAgreement(pressure.correlation, station.r1, 1e-11, FIFTY_DIGITS);
      expectAgreement(pressure.effectiveCount, station.neff, 1e-11, FIFTY_DIGITS);
      expectAgreement(pressure.standardError, station.se, 1e-11, FIFTY_DIGITS);
      expectAgreement(pressure.degreesOfFreedom, station.nu, 1e-11, FIFTY_DIGITS);
    });

    test("gives the same with times as a spreadsheet's days", () => {
      const days = times.map((time) => 46_350.25 + time / 86_400);
      const again = logStations(logOf(days, pressures), { tolerance, shortest });
      expect(again.map(({ firstRow, lastRow }) => [firstRow, lastRow])).toEqual(
        stations.map(({ firstRow, lastRow }) => [firstRow, lastRow]),
      );
      again.forEach(({ pressure, duration }, index) => {
        expectAgreement(pressure.standardError, stations[index]!.pressure.standardError, 1e-12, "the same rows");
        expectAgreement(duration, stations[index]!.duration, 1e-4, "a day's time is known to a microsecond");
      });
    });
  },
);

/** Steps, ramps, noise and gaps of every kind; times uneven where `gaps` says so. */
const logs = fc
  .array(
    fc.record({
      length: fc.integer({ min: 1, max: 40 }),
      level: fc.integer({ min: -6, max: 6 }),
      slope: fc.integer({ min: -3, max: 3 }),
      noise: fc.integer({ min: 0, max: 8 }),
      gap: fc.constantFrom(1, 1, 1, 2, 5, 6, 40),
    }),
    { minLength: 1, maxLength: 8 },
  )
  .chain((parts) =>
    fc.record({
      parts: fc.constant(parts),
      seed: fc.integer({ min: 1, max: 1e6 }),
      tolerance: fc.constantFrom(0.2, 0.5, 1, 1.5),
      shortest: fc.constantFrom(1, 3, 8, 15),
    }),
  )
  .map(({ parts, seed, tolerance, shortest }) => {
    let state = seed;
    const draw = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647 - 0.5;
    const [times, pressures]: [number[], number[]] = [[], []];
    let time = 0;
    for (const { length, level, slope, noise, gap } of parts) {
      time += gap;
      for (let row = 0; row < length; row++) {
        times.push(time);
        pressures.push(Math.round(10 * (level + (slope * row) / 20 + (noise * draw()) / 4)) / 10);
        time += draw() > 0.4 ? 2 : 1;
      }
    }
    return { times, pressures, tolerance, shortest };
  });

test("finds what the rule written out row by row finds, in 1 500 made-up logs", () => {
  let stations = 0;
  fc.assert(
    fc.property(logs, ({ times, pressures, tolerance, shortest }) => {
      fc.pre(times.length >= 2);
      const found = logStations(logOf(times, pressures), { tolerance, shortest });
      expect(found.map(({ firstRow, lastRow }) => [firstRow - 1, lastRow - 1])).toEqual(
        stationsByHand(times, pressures, tolerance, shortest),
      );
      stations += found.length;
    }),
    { numRuns: 1500, seed: 20_241_126 },
  );
  expect(stations).toBeGreaterThan(1500);
});

describe("the 95 % interval of a station's mean covers the truth where gusts last longer than a row (simulated here)", () => {
  // First-order autoregression 0.8. The plain standard error covers 46 to 48 %; the rule was simulated to 93 and 95 % elsewhere.
  test.each([
    [30, 0.9],
    [120, 0.92],
  ])("%d rows: %d and more", (rows, atLeast) => {
    const runs = 3000;
    let [covered, naive] = [0, 0];
    for (let run = 0; run < runs; run++) {
      // Two rows are dropped at each end.
      const pressures = autoregression(rows + 4, 0.8, run + 1);
      const times = pressures.map((_, index) => index);
      const [station] = logStations(logOf(times, pressures), { tolerance: 1000 });
      const { mean, standardError, degreesOfFreedom, deviation, count } = station!.pressure;
      if (Math.abs(mean) <= studentT(0.95, degreesOfFreedom) * standardError) covered++;
      if (Math.abs(mean) <= (studentT(0.95, count - 1) * deviation) / Math.sqrt(count)) naive++;
    }
    expect(covered / runs).toBeGreaterThan(atLeast);
    expect(covered / runs).toBeLessThan(0.975);
    expect(naive / runs).toBeLessThan(0.55);
  });
});

test("a million rows, however they ramp, are reduced in seconds", () => {
  const count = 1_048_576;
  const times = Float64Array.from({ length: count }, (_, index) => index);
  // A slow ramp keeps every window full and moves it row by row: the worst case for a search that looks back.
  const ramp = Float64Array.from({ length: count }, (_, index) => index / 10_000);
  const started = process.cpuUsage();
  const stations = logStations({ times, pressures: ramp });
  const { user, system } = process.cpuUsage(started);
  expect(stations.length).toBe(Math.ceil((count - 1) / 30_001));
  expect((user + system) / 1e6).toBeLessThan(10);
});
