import { describe, expect, test } from "vitest";
import { fanFlow as flowOfFan } from "../../../src/core";
import { passFail, validityChecks } from "../../../src/functions";
import vectors from "../../authorities/uncertainty-vectors/vectors.json";
import { column } from "../errors";
import { outcome, symbolsWith, certificates } from "./checks";

describe("whole tests of the uncertainty vectors", () => {
  function budget(index: number, direction: number, ...further: [string, unknown][]) {
    const { inputs } = vectors.budgets[index]!;
    const test = inputs.directions[direction]!;
    const openings: Record<string, { coefficient: number; exponent: number }> = inputs.openings;
    const indicated = test.fan_pressures.map((pressure, row) => flowOfFan(pressure, openings[test.opening[row]!]!));
    const mean = (rows: readonly number[]) => rows.reduce((sum, row) => sum + row, 0) / rows.length;
    const settings = [
      ["volume", inputs.volume],
      ["flow basis", "indicated at calibration density"],
      ["calibration density", inputs.calibration_density],
      ["indoor temperature", inputs.indoor_temperature],
      ["outdoor temperature", inputs.outdoor_temperature],
      ["barometric pressure", inputs.barometer],
      ...certificates,
      ...further,
    ];
    const readings = [column(...test.readings), column(...indicated)] as const;
    const run = (cells: (rows: readonly number[]) => unknown[][]) => {
      const sets = [test.baseline_before, test.baseline_after ?? []] as const;
      return validityChecks(test.direction, ...readings, cells(sets[0]), cells(sets[1]), settings);
    };
    return { single: run((rows) => column(...rows)), averaged: run((rows) => column(mean(rows))) };
  }

  test.each([
    [0, "depressurization"],
    [1, "pressurization"],
  ])("the calm test is valid, direction %d", (direction, named) => {
    const { single, averaged } = budget(0, direction, ["wind speed", 1.5], ["wind place", "near the ground"]);
    expect(symbolsWith(single, "not met")).toEqual([]);
    expect(symbolsWith(single, "cannot be judged")).toEqual([]);
    expect(outcome(single, "wind")).toBe("met");
    const verdict = passFail([[0.566]], [[0.6]], undefined, null, undefined, single, undefined, named);
    expect(verdict).toEqual([["pass"]]);
    expect(symbolsWith(averaged, "not met")).toEqual([]);
    expect(symbolsWith(averaged, "cannot be judged")).toEqual(["dp01+", "dp01-", "dp02+", "dp02-", "dp0_of_min"]);
  });

  test.each([0, 1])(
    "the windy test is not: baseline against the lowest pressure; wind and the few baseline readings ask for a look, direction %d",
    (direction) => {
      const { single } = budget(1, direction, ["wind speed", 6], ["wind place", "near the ground"]);
      expect(symbolsWith(single, "not met")).toEqual(["dp0_of_min"]);
      expect(symbolsWith(single, "not met", "advisory")).toEqual(expect.arrayContaining(["count_dp0", "wind"]));
      expect(passFail([[0.566]], [[0.6]], undefined, null, undefined, single)).toEqual([["not valid"]]);
    },
  );
});
