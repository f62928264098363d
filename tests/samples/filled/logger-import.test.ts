import { describe, expect, it } from "vitest";
import { stationRows } from "../../../sample-workbooks/logger-import/layout";
import "../look-up";
import { slow } from "../../time-outs";
import { block, type Entries, fillBlank } from "./fill";
import { type Air, computeByHand, mean, type Run, takeRun } from "./house";

const air: Air = { indoors: 20, outdoors: 8, barometer: 100_800, humidityIndoors: 0.5, humidityOutdoors: 0.8 };
const day = 46_346;
const volume = 300;
const device = { c: 21.7, m: 0.506 } as const;
const pressures = [60, 52, 44, 36, 28, 20] as const;

/** Shares of a pascal around the level of a station, row after row; they add up to nothing. */
const ripple = [0, 0.2, 0.1, -0.1, 0.3, -0.2, 0, -0.3, 0.1, -0.1] as const;
const rowsOfStation = 40;

const houses = [
  { verdict: "pass", coefficient: 18, withBarometer: true },
  { verdict: "fail", coefficient: 26, withBarometer: true },
  { verdict: "no result", coefficient: 18, withBarometer: false },
] as const;

type LogRow = readonly [time: number, pressure: number, fanPressure: number, state: string];

/** A logger's rows of a visit: covered, one direction, covered, the other, covered. */
function takeLog(coefficient: number): readonly LogRow[] {
  const rows: LogRow[] = [];
  const add = (pressure: number, fanPressure: number) => {
    const time = day + 0.4 + rows.length / 86_400;
    rows.push([time, Number(pressure.toFixed(1)), fanPressure, fanPressure === 0 ? "zero flow" : "fan running"]);
  };
  const hold = (pressure: number, fanPressure: number) => {
    for (let row = 0; row < rowsOfStation; row++) add(pressure + (ripple[row % ripple.length] ?? 0), fanPressure);
  };
  (["depressurization", "pressurization"] as const).forEach((direction, turn) => {
    hold(-1, 0);
    const { readings } = takeRun({ coefficient, n: 0.64 }, direction, { air, zero: -1, turn }, pressures);
    for (const [pressure, flow] of readings) {
      // On its way to the next level the fan passes others.
      for (const share of [0.3, 0.6]) add(pressure * share, 11);
      hold(pressure, Number(((flow / device.c) ** (1 / device.m)).toFixed(1)));
    }
  });
  hold(-1, 0);
  return rows;
}

/** The runs of a log by the rows that the form counts to each station: which they are is its choice, their means are not. */
function readRuns(rows: readonly LogRow[], form: ReturnType<typeof fillBlank>): readonly Run[] {
  const stations = Array.from({ length: 3 + 2 * pressures.length }, (_, index) => {
    const cell = (letter: string) => form.cell(`Stations!${letter}${stationRows.first + index}`);
    const own = rows.slice(Number(cell("Q")) - 1, Number(cell("R")));
    const flow = mean(own.map(([, , fan]) => (fan === 0 ? 0 : device.c * fan ** device.m)));
    return { role: cell("S"), pressure: mean(own.map(([, one]) => one)), flow };
  });
  const covered = stations.filter(({ role }) => role === "baseline").map(({ pressure }) => pressure);
  return (["depressurization", "pressurization"] as const).map((direction, index) => ({
    direction,
    air,
    calibration: 1.2041,
    before: [covered[index] ?? NaN],
    after: [covered[index + 1] ?? NaN],
    readings: stations.filter(({ role }) => role === direction).map(({ pressure, flow }) => [pressure, flow] as const),
  }));
}

describe("the blank logger-import.xlsx, filled in", { timeout: slow }, () => {
  it.each(houses)("gives the figures of the log, and $verdict", ({ verdict, coefficient, withBarometer }) => {
    const rows = takeLog(coefficient);
    const entries: Entries = {
      ...block("Overview", ["C"], 6, [["Tern Barn"], ["8 Pier Road"], ["Ada Fenn"], ["Odo Marsh"]]),
      ...block("Overview", ["G"], 6, [["Thrift & Fenn"], ["Air tests"], [null], ["tern.csv"], [day]]),
      ...block("Overview", ["C"], 14, [
        [volume],
        [340],
        [air.indoors],
        [air.outdoors],
        [withBarometer ? air.barometer : null],
        [air.humidityIndoors],
        [air.humidityOutdoors],
        [1.2041],
      ]),
      "Overview!G25": 1,
      ...block("Log", ["H"], 12, [[device.c], [device.m], [8], [300]]),
      ...block("Log", [..."BCDE"], 6, rows),
      ...block("Uncertainty", ["C"], 7, [[6], [2], [0.01], [0.01], [0.015], [0.02]]),
    };
    const form = fillBlank("logger-import.xlsx", entries);
    expect(form.listNotEvaluated()).toEqual([]);
    expect(form.summary("Stations, depressurization")).toBe(pressures.length);
    expect(form.summary("Stations, pressurization")).toBe(pressures.length);
    if (!withBarometer) {
      expect(form.cell("Overview!G26")).not.toBe("pass");
      return;
    }
    const [down, up] = readRuns(rows, form).map(computeByHand);
    expect(form.listErrors()).toEqual([]);
    expect(form.summary("Flow exponent n, depressurization")).toBeCloseToRelative(down!.n);
    expect(form.summary("Air change rate n50, depressurization")).toBeCloseToRelative(down!.q50 / volume);
    expect(form.summary("Air change rate n50, pressurization")).toBeCloseToRelative(up!.q50 / volume);
    expect(form.summary("Result against the limit")).toBe(verdict);
    expect(form.verify()).toEqual([]);
  });
});
