import { describe, expect, test } from "vitest";
import * as functions from "../../../src/functions";
import { perfect, usual } from "./physics/instruments";
import { scenarios, type Scenario } from "./scenarios";
import type { Sheet } from "./sheet";
import { simulateTest } from "./simulate";

type Row = readonly unknown[];

function valuesOf(table: unknown[][], column = 2): Map<unknown, unknown> {
  return new Map(table.map((row: Row) => [row[1], row[column]]));
}

type Arguments = Parameters<typeof functions.testResult>;

function argumentsOf({ direction, pressures, flows, before, after, settings }: Sheet): Arguments {
  return [direction, pressures, flows, before, after, settings.map((row) => [...row])];
}

function resultOf(sheet: Sheet) {
  return valuesOf(functions.testResult(...argumentsOf(sheet)));
}

const none = { deviation: 0, autocorrelation: 0 };

/** The scenario without noise, drift, wind and stack: what is left is the physics. */
function quiet(scenario: Scenario, more: Partial<Scenario> = {}): Scenario {
  return {
    ...scenario,
    baseline: { ...scenario.baseline, gusts: none },
    reading: { gusts: none, seconds: 1, flowNoise: 0 },
    ...{ drift: 0, wander: 0, times: false, wind: 0, height: 0, settings: [] },
    ...more,
  };
}

const named = (name: string) => scenarios.find((scenario) => scenario.name === name)!;

/** Logarithms, a fit and powers in doubles, each right to some 1e-15, over pressures a factor of four apart. */
const roundingErrors = 1e-9;

describe("without noise and errors the functions give back the true house", () => {
  const bases = ["indicated at calibration density", "actual at the fan", "through the envelope"] as const;
  test.each(bases.flatMap((flowBasis) => ["calm", "two-openings"].map((name) => [flowBasis, name] as const)))(
    "flows %s, %s",
    (flowBasis, name) => {
      const { truth, depressurization, pressurization, repeat } = simulateTest(
        quiet(named(name), { flowBasis }),
        perfect,
        5,
        3,
      );
      for (const sheet of [depressurization, pressurization, repeat]) {
        const found = resultOf(sheet);
        for (const symbol of ["n", "q50", "n50", "ELA4"] as const) {
          expect(Math.abs(Number(found.get(symbol)) / truth[symbol] - 1)).toBeLessThan(roundingErrors);
        }
      }
    },
  );

  test("through the budget of both directions too", () => {
    const { truth, depressurization, pressurization } = simulateTest(quiet(named("calm")), perfect, 5, 4);
    const [direction, pressures, flows, before, after, settings] = argumentsOf(pressurization);
    const other = functions.uncertaintyBudget(...argumentsOf(depressurization));
    const both = [direction, pressures, flows, before, after, settings, undefined, other] as const;
    const mean = valuesOf(functions.uncertaintyBudget(...both));
    expect(Math.abs(Number(mean.get("result")) / truth.n50 - 1)).toBeLessThan(roundingErrors);
  });

  test("with a drift, once the baseline is interpolated by the typed times", () => {
    const scenario = quiet(named("drift-times"), { drift: 2, wander: 0, times: true });
    const { truth, depressurization } = simulateTest(scenario, perfect, 5, 6);
    const settings = new Map(depressurization.settings);
    const [start, end] = ["time of baseline before", "time of baseline after"].map((label) =>
      Number(settings.get(label)),
    );
    const mean = (rows: number[][]) => rows.flat().reduce((sum, value) => sum + value, 0) / rows.length;
    const [before, after] = [mean(depressurization.before), mean(depressurization.after)];
    expect(Math.abs(after - before)).toBeGreaterThan(0.1);
    const induced = depressurization.pressures.map(([time, pressure]) => [
      pressure! - before - ((after - before) * (time! - start!)) / (end! - start!),
    ]);
    const known = depressurization.settings.filter(([label]) => !label.startsWith("time of baseline"));
    const found = resultOf({
      ...depressurization,
      pressures: induced,
      before: [[0]],
      after: [[0]],
      settings: known,
    });
    for (const symbol of ["n", "q50", "n50"] as const) {
      expect(Math.abs(Number(found.get(symbol)) / truth[symbol] - 1)).toBeLessThan(roundingErrors);
    }
  });
});

describe("what a tester types", () => {
  test("is the same for a seed, and another for another seed, test or scenario", () => {
    const typed = (seed: number, number: number, name = "calm") =>
      JSON.stringify(simulateTest(named(name), usual, seed, number).depressurization.pressures);
    expect(typed(1, 7)).toBe(typed(1, 7));
    expect(new Set([typed(1, 7), typed(2, 7), typed(1, 8), typed(1, 7, "shared")]).size).toBe(4);
  });

  test("is rounded to a tenth of a pascal and signed as indoors minus outdoors", () => {
    const { depressurization, pressurization } = simulateTest(named("noisy-12"), usual, 1, 1);
    for (const [value] of [...depressurization.pressures, ...pressurization.before]) {
      expect(value).toBe(Number(value!.toFixed(1)));
    }
    expect(depressurization.pressures.flat().every((pressure) => pressure < 0)).toBe(true);
    expect(pressurization.pressures.flat().every((pressure) => pressure > 0)).toBe(true);
  });

  test("has one pair of baselines for both directions where it is shared, two pairs elsewhere", () => {
    const shared = simulateTest(named("shared"), usual, 1, 1);
    expect(shared.pressurization.before).toEqual(shared.depressurization.before);
    expect(shared.pressurization.after).toEqual(shared.depressurization.after);
    const apart = simulateTest(named("calm"), usual, 1, 1);
    expect(apart.pressurization.before).not.toEqual(apart.depressurization.before);
    expect(simulateTest(named("averaged"), usual, 1, 1).repeat.before).toHaveLength(1);
  });
});
