import { describe, expect, test } from "vitest";
import { inducedPressure, testResult, uncertaintyBudget, validityChecks } from "../../src/functions";
import { block, column as columnOf, valueOf, type Cell } from "../authorities/support/sheet";
import { refusal } from "./errors";

/** An invented house whose baseline falls evenly from −1 to −3 Pa while it is depressurized; times are minutes. */
const induced = [60, 50, 40, 30, 20, 12];
const times = [3, 5, 8, 9, 12, 14];
const [start, end] = [1, 17];
const zeroAt = (time: number) => -1 - (2 * (time - start)) / (end - start);
const flows = induced.map((pressure) => 24 * pressure ** 0.65);
const asRead = induced.map((pressure, index) => -pressure + zeroAt(times[index]!));
const settings = {
  volume: 500,
  "indoor temperature": 20,
  "outdoor temperature": 20,
  "indoor humidity": 0.000001,
  "outdoor humidity": 0.000001,
  "flow basis": "through the envelope",
};
const timed = { ...settings, "time of baseline before": start, "time of baseline after": end };
const [before, after] = [columnOf([-1, -1]), columnOf([-3, -3])];

const withTimes = (at: readonly Cell[] = times) => asRead.map((pressure, index) => [at[index]!, pressure]);

const result = (pressures: unknown[][], more: Record<string, Cell> = settings) =>
  testResult("depressurization", pressures, columnOf(flows), before, after, block(more));

describe("a zero that follows the time of the readings", () => {
  test("gives the true curve of a house whose baseline moves evenly; the mean of the baselines does not", () => {
    const right = result(withTimes(), timed);
    expect(valueOf(right, "n")).toBeCloseTo(0.65, 12);
    expect(valueOf(right, "C")).toBeCloseTo(24, 10);
    expect(valueOf(right, "dp_max")).toBeCloseTo(60, 12);
    expect(valueOf(right, "dp0")).toBe(-2);
    expect(right.find(([, symbol]) => symbol === "dp0")![0]).toMatch(/each reading's follows its time/);
    expect(Math.abs(valueOf(result(columnOf(asRead)), "n") - 0.65)).toBeGreaterThan(0.005);
  });

  test("does not depend on the unit of time nor on where it begins", () => {
    const other = (time: number) => 0.75 + time / 1440;
    const moved = { ...timed, "time of baseline before": other(start), "time of baseline after": other(end) };
    expect(valueOf(result(withTimes(times.map(other)), moved), "q50")).toBeCloseTo(
      valueOf(result(withTimes(), timed), "q50"),
      9,
    );
  });

  test("is the mean where the baseline does not move", () => {
    const still = columnOf([-2, -2]);
    const given = [columnOf(flows), still, still] as const;
    const one = testResult("depressurization", withTimes(), ...given, block(timed));
    const other = testResult("depressurization", columnOf(asRead), ...given, block(settings));
    expect(valueOf(one, "n")).toBe(valueOf(other, "n"));
  });

  test("is the same in INDUCEDPRESSURE, the budget and the checks", () => {
    const pressures = inducedPressure(
      columnOf(asRead),
      before,
      after,
      "depressurization",
      null,
      columnOf(times),
      [[start]],
      [[end]],
    );
    pressures.forEach(([pressure], index) => expect(pressure).toBeCloseTo(-induced[index]!, 12));
    const budget = uncertaintyBudget("depressurization", withTimes(), columnOf(flows), before, after, block(timed));
    expect(valueOf(budget, "result")).toBe(valueOf(result(withTimes(), timed), "n50"));
    expect(valueOf(budget, "drift_d")).toBe(0);
    const checks = validityChecks("depressurization", withTimes(), columnOf(flows), before, after, block(timed));
    const measured: unknown = checks.find(([, symbol]) => symbol === "dp_min")![2];
    expect(measured).toBeCloseTo(12, 12);
  });

  test("without a baseline after the test times change nothing", () => {
    const given = [columnOf(flows), before, undefined] as const;
    const one = testResult("depressurization", withTimes(), ...given, block(settings));
    expect(valueOf(one, "n")).toBe(
      valueOf(testResult("depressurization", columnOf(asRead), ...given, block(settings)), "n"),
    );
  });

  test("a lacking time, one outside the baselines, baselines out of order, too many columns are named", () => {
    expect(refusal(() => result(withTimes()))).toEqual({
      code: "#N/A",
      message: 'settings: "time of baseline before" is not given yet',
    });
    expect(refusal(() => result(columnOf(asRead), timed))).toEqual({
      code: "#N/A",
      message: "pressures, row 1: not given yet",
    });
    expect(refusal(() => result(withTimes([3, 5, "", 9, 12, 14]), timed)).message).toBe(
      "pressures, row 3: not given yet",
    );
    expect(refusal(() => result(withTimes([3, 5, 8, 9, 12, 18]), timed))).toEqual({
      code: "#VALUE!",
      message: "pressures, row 6: its time is not between the two baselines",
    });
    expect(refusal(() => result(withTimes(), { ...timed, "time of baseline after": 1 })).message).toMatch(
      /^settings: time of baseline after: must be later than the baseline before/,
    );
    expect(
      refusal(() =>
        result(
          withTimes().map((row) => [0, ...row]),
          timed,
        ),
      ).message,
    ).toBe("pressures: the columns are: time and pressure, or pressure (got 3)");
    expect(
      refusal(() => inducedPressure(columnOf(asRead), before, after, null, null, columnOf([1, 2]), [[0]], [[9]]))
        .message,
    ).toBe("times: 2 for 6 readings: the numbers must match");
    expect(
      refusal(() => inducedPressure(columnOf(asRead), before, after, null, null, columnOf(times), [[start]])).message,
    ).toBe("time_after: not given yet");
  });
});
