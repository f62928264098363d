import { describe, expect, test } from "vitest";
import { logStations } from "../../../../src/core";
import { at, about, rows } from "./logs";

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
    const unclear = (interval: number): unknown =>
      expect.objectContaining({ code: "timeUnitUnclear", data: { interval: expect.closeTo(interval, 9) as number } });
    // Four intervals, the middle two 0.0045 and 0.0065: their mean lies where the unit must be said.
    const four = [0, 0.0001, 0.0046, 0.0111, 1.0111];
    expect(() => logStations(at(four, [1, 1, 1, 1, 1]))).toThrow(unclear(0.0055));
    // Three intervals: the one in the middle of their order counts.
    expect(() => logStations(at([0, 0.004, 0.0092, 1], [1, 1, 1, 1]))).toThrow(unclear(0.0052));
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
