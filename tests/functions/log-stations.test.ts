import { describe, expect, test } from "vitest";
import { logStations as cellFunction } from "../../src/functions";
import { errorIn, refusal } from "./errors";

/** An invented log of one row a second: half a minute covered, half a minute at −50 Pa, gusts of a few tenths. */
const gust = (second: number) => Math.round(3 * Math.sin(second * 1.3)) / 10;
const seconds = [...Array(60).keys()];
const pressure = (second: number) => (second < 30 ? -1.5 : -50) + gust(second);
const fanPressure = (second: number) => (second < 30 ? 0 : 36);
const plain = seconds.map((second) => [second, pressure(second)]);
const withFan = seconds.map((second) => [second, pressure(second), fanPressure(second)]);
const fanSettings: unknown[][] = [
  ["columns", "time, pressure, fan pressure"],
  ["fan coefficient", 60],
  ["fan exponent", 0.5],
];
const logStations = (...given: Parameters<typeof cellFunction>): unknown[][] => cellFunction(...given);
const at = (rows: unknown[][]) => rows.map((cells) => cells.slice(-2));

describe("LOGSTATIONS", () => {
  test("two columns: two stations, two rows off each end, and no word on the fan", () => {
    const rows = logStations(plain);
    expect(at(rows)).toEqual([
      [3, 28],
      [33, 58],
    ]);
    expect(rows[1]!.slice(0, 4)).toEqual([32, 57, 25, 26]);
    const values = seconds.slice(32, 58).map(pressure);
    const mean = values.reduce((a, b) => a + b) / 26;
    expect(rows[1]![4]).toBeCloseTo(mean, 12);
    expect(rows[1]![5]).toBeCloseTo(Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / 25), 12);
    expect(rows[1]!.slice(9, 13)).toEqual(["", "", "", ""]);
  });

  test("fan pressures become flow row by row, a covered fan is zero flow", () => {
    const wavy = seconds.map((s) => [s, pressure(s), s < 30 ? 0 : s % 2 === 0 ? 16 : 64]);
    const [covered, running] = logStations(wavy, fanSettings);
    expect(covered!.slice(9, 13)).toEqual([0, 0, 0, "zero flow"]);
    // Mean of 60·√16 and 60·√64; the flow of the mean fan pressure, 60·√40 = 379.5, would be wrong.
    expect(running![9]).toBeCloseTo(360, 10);
    expect(running![12]).toBe("fan running");
  });

  test("a flow column is averaged as it stands; what is covered shows at 0, or below the level given", () => {
    const flows = seconds.map((s) => [s, pressure(s), s < 30 ? 4 : 360]);
    const settings = [["columns", "time, pressure, flow"]];
    expect(logStations(flows, settings).map((row) => row[12])).toEqual(["fan running", "fan running"]);
    const quiet = logStations(flows, [...settings, ["zero flow below", 10]]);
    expect(quiet.map((row) => row.slice(9, 13))).toEqual([
      [4, 0, 0, "zero flow"],
      [360, 0, 0, "fan running"],
    ]);
  });

  test("a state column ends a station where it changes, although the pressure stays", () => {
    const steady = seconds.map((s) => [s, -20 + gust(s), s < 25 ? "Zero flow" : "fan running"]);
    const rows = logStations(steady, [["columns", "time, pressure, state"]]);
    expect(rows.map((row) => [row[12], ...row.slice(-2)])).toEqual([
      ["zero flow", 3, 23],
      ["fan running", 28, 58],
    ]);
    expect(
      refusal(() =>
        logStations(
          [
            [0, 1, "on"],
            [1, 1, "on"],
          ],
          [["columns", "time, pressure, state"]],
        ),
      ).message,
    ).toBe('log, row 1: "on" is not one of: zero flow, fan running');
  });

  test("a gap of more than five intervals ends a station", () => {
    const paused = seconds.map((s) => [s < 45 ? s : s + 6, -50 + gust(s)]);
    expect(at(logStations(paused))).toEqual([[3, 43]]);
    const breath = seconds.map((s) => [s < 45 ? s : s + 4, -50 + gust(s)]);
    expect(at(logStations(breath))).toEqual([[3, 58]]);
  });

  test("blank rows are dropped whichever way the host sends them, and the rows still count as on the sheet", () => {
    for (const blank of [
      ["", ""],
      [null, null],
      [0, 0],
    ]) {
      const padded = [...plain.slice(0, 10), blank, ...plain.slice(10), blank, blank];
      expect(at(logStations(padded))).toEqual([
        [3, 29],
        [34, 59],
      ]);
    }
  });

  test("times as Excel's days give the same stations, and their times come back as days", () => {
    const days = plain.map(([second, value]) => [46_350 + second! / 86_400, value]);
    const rows = logStations(days);
    expect(at(rows)).toEqual(at(logStations(plain)));
    expect(rows[1]![0]).toBe(46_350 + 32 / 86_400);
    expect(rows[1]![2]).toBeCloseTo(25, 3);
    const doubtful = plain.map(([second, value]) => [second! / 50, value]);
    expect(refusal(() => logStations(doubtful)).message).toMatch(/^settings: .*"time unit"/);
    expect(refusal(() => logStations(doubtful, [["time unit", "seconds"]])).code).toBe("#N/A");
  });

  test("tolerance and shortest station are settings", () => {
    expect(refusal(() => logStations(plain, [["shortest station", 40]]))).toEqual({
      code: "#N/A",
      message: "log: no stretch is steady for long enough; a wider tolerance or a shorter station may find one",
    });
    expect(at(logStations(plain, [["tolerance", 30]]))).toEqual([[3, 58]]);
  });

  test("what a tester should look at", () => {
    const look = (values: (second: number) => number, settings: unknown[][] = []) =>
      logStations(
        seconds.map((s) => [s, values(s)]),
        settings,
      )[0]![13];
    expect(look((s) => -50 + gust(s))).toBe("");
    expect(look((s) => -50 + s * 0.045)).toContain("drifts");
    expect(look((s) => -50 + Math.sin(s / 12))).toContain("too short");
    expect(look((s) => (s === 30 ? -10 : -50 + gust(s)))).toBe("single rows far off");
    expect(look(() => -50)).toBe("constant: scatter below the gauge's resolution");
    const constant = logStations(
      seconds.map((s) => [s, -50]),
      [["gauge resolution", 0.1]],
    )[0]!;
    expect(constant[6]).toBeCloseTo(0.1 / Math.sqrt(12), 15);
  });

  test("a fan pressure outside its calibrated range, or missing in a row, leaves the station without flow and says so", () => {
    const range = [...fanSettings, ["lowest fan pressure", 40], ["highest fan pressure", 300]];
    const outside = logStations(withFan, range)[1]!;
    expect(outside.slice(9, 14)).toEqual([
      "",
      "",
      "",
      "fan running",
      "no flow: rows outside the calibrated range of the fan: 26",
    ]);
    for (const blank of ["", null, 0]) {
      const gappy = withFan.map((cells, index) => (index === 40 ? [cells[0], cells[1], blank] : cells));
      const note = logStations(gappy, [...fanSettings, ["zero flow below", 1]])[1]![13];
      expect(note).toBe("no flow: rows without it: 1");
    }
  });

  test("a calibration that cannot be is named by its label", () => {
    const message = (label: string, value: number) =>
      refusal(() => logStations(withFan, [...fanSettings.filter(([name]) => name !== label), [label, value]])).message;
    expect(message("fan exponent", 5)).toMatch(/^settings: fan exponent: /);
    const crossed = [...fanSettings, ["lowest fan pressure", 40], ["highest fan pressure", 30]];
    expect(refusal(() => logStations(withFan, crossed)).message).toMatch(/^settings: highest fan pressure: /);
    expect(message("fan coefficient", -60)).toMatch(/^settings/);
  });

  test("columns are never guessed", () => {
    const message = (settings: unknown[][], log: unknown[][] = withFan) =>
      refusal(() => logStations(log, settings)).message;
    expect(message([])).toMatch(/^settings: the log has 3 columns/);
    expect(message([["columns", "time, pressure"]])).toMatch(/^settings: columns: 2 columns, the log has 3/);
    expect(message([["columns", "time, pressure, wind"]])).toMatch(/"wind" is not one of/);
    expect(message([["columns", "time, flow, fan pressure"]])).toMatch(/time and pressure are needed/);
    expect(message([["columns", "time, pressure, pressure"]])).toMatch(/appears twice/);
    expect(refusal(() => logStations(withFan, [["columns", "time, pressure, fan pressure"]]))).toEqual({
      code: "#N/A",
      message: 'settings: a log of fan pressures needs "fan coefficient" and "fan exponent"',
    });
    const ignored = seconds.map((s) => ["note", s, pressure(s)]);
    expect(at(logStations(ignored, [["columns", "other; Time; pressure"]]))).toEqual(at(logStations(plain)));
  });

  test("a row out of order, without its time or pressure, or with text is named", () => {
    const wrong = (row: unknown[]) => refusal(() => logStations([...plain.slice(0, 20), row, ...plain.slice(21)]));
    expect(wrong([19, -1])).toEqual({
      code: "#VALUE!",
      message: "log, row 21: the time 19 is not later; past midnight the date is needed",
    });
    expect(wrong([20, ""])).toEqual({ code: "#N/A", message: "log, row 21: a time without its pressure" });
    expect(wrong(["", -1])).toEqual({ code: "#N/A", message: "log, row 21: a row without its time" });
    expect(wrong([20, "high"]).message).toMatch(/^log, row 21: a number is needed/);
    expect(wrong([20, NaN]).message).toMatch(/^log, row 21/);
    expect(wrong([20, -1, 3]).message).toMatch(/^log, row 21: 3 columns, the log has 2/);
    expect(errorIn(refusal(() => logStations([[0, 1]]))).code).toBe("#N/A");
    expect(refusal(() => logStations([])).message).toMatch(/^(log|settings)/);
  });
});
