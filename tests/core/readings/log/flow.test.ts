import { describe, expect, test } from "vitest";
import { logStations } from "../../../../src/core";
import { log, about, many } from "./logs";

const column = (values: readonly number[]) => ({ fan: Float64Array.from(values) });

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
