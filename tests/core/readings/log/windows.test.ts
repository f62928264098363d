import { describe, expect, test } from "vitest";
import { logStations } from "../../../../src/core";
import { stationsByHand } from "../../../authorities/support/stations";
import { log, about, rows, many } from "./logs";

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
