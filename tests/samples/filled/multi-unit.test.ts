import { describe, expect, it } from "vitest";
import "../look-up";
import { slow } from "../../time-outs";
import { block, type Entries, fillBlank } from "./fill";
import { type Air, computeByHand, mean, takeRun } from "./house";

const air: Air = { indoors: 21, outdoors: 5, barometer: 100_700, humidityIndoors: 0.5, humidityOutdoors: 0.5 };
const day = 46_346;
const pressures = [61, 54, 47, 39, 32, 25, 18] as const;

/** Flats with their floor area, volume, envelope and outer area, and how leaky each is to outdoors. */
const units = [
  { name: "1 left", floor: 64, volume: 162, envelope: 218, outer: 120, leaks: 1 },
  { name: "1 right", floor: 71, volume: 181, envelope: 236, outer: 131, leaks: 1.1 },
] as const;

const buildings = {
  pass: { coefficient: 21, zero: -1.2 },
  fail: { coefficient: 42, zero: -1.4 },
  "not valid": { coefficient: 21, zero: -7.5 },
} as const;

function fillBuilding({ coefficient, zero }: { readonly coefficient: number; readonly zero: number }) {
  const whole = (flow: number) => Number(flow.toFixed(1));
  const tested = units.map((unit, index) => {
    const run = (more: number, turn: number) =>
      takeRun(
        { coefficient: coefficient * unit.leaks * more, n: 0.64 },
        "depressurization",
        { air, zero, turn },
        pressures,
        whole,
      );
    return {
      ...unit,
      unguarded: run(1.3, 2 * index),
      guarded: run(1, 2 * index + 5),
    };
  });
  const entries: Entries = {
    ...block("Overview", ["C"], 6, [
      ["Puffin Court"],
      ["5 Pier Road"],
      ["Ada Fenn"],
      ["Brick"],
      ["Thrift & Fenn"],
      ["Air tests"],
    ]),
    ...block("Overview", ["G"], 6, [[day + 3], ["Odo Marsh"], ["method 2, building envelope"], ["TF-26-50"]]),
    ...block(
      "Units",
      [..."BCDEFG"],
      8,
      units.map(({ name, floor, volume, envelope, outer }) => [name, "ground", floor, volume, envelope, outer]),
    ),
    ...block(
      "Units",
      [..."IJ"],
      8,
      units.map(() => ["position", "Both flats of the house"]),
    ),
    "Units!E26": "whole internal",
    ...block("Sampling", ["C"], 6, [["Every flat"], ["Ada Fenn"], [day - 5], ["Nothing"]]),
    "Sampling!B18": "ground",
    ...block("Instruments", ["C"], 6, [[1.2041], [0.02], [0.005], [0.01]]),
    "Results!T27": "guarded",
    "Criteria!C6": "Canada, NBC 2020 reference",
    ...Object.fromEntries(
      tested.flatMap(({ name, unguarded, guarded }, index) => {
        const at = 7 + 18 * index;
        const readings = unguarded.readings.map((reading, row) => [...reading, ...(guarded.readings[row] ?? [])]);
        const zeros = (of: "before" | "after") =>
          [mean(unguarded[of]), mean(guarded[of])].map((value) => Number(value.toFixed(1)));
        return Object.entries({
          ...block("Runs", [..."BCDEF"], at, [[name, day, air.indoors, air.outdoors, air.barometer]]),
          ...block("Runs", [..."CDEF"], at + 3, readings),
          ...block("Runs", [..."CE"], at + 11, [zeros("before"), zeros("after")]),
        });
      }),
    ),
  };
  const rounded = (values: readonly number[]) => [Number(mean(values).toFixed(1))];
  const q50 = (which: "unguarded" | "guarded") =>
    tested.map((unit) => {
      const run = unit[which];
      return computeByHand({ ...run, before: rounded(run.before), after: rounded(run.after) }).q50;
    });
  return { form: fillBlank("multi-unit.xlsx", entries), unguarded: q50("unguarded"), guarded: q50("guarded") };
}

const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

describe("the blank multi-unit.xlsx, filled in", { timeout: slow }, () => {
  it.each(Object.entries(buildings))("says %s of the building that is", (verdict, building) => {
    const { form, unguarded, guarded } = fillBuilding(building);
    const volume = total(units.map((unit) => unit.volume));
    expect(form.listErrors()).toEqual([]);
    expect(form.listNotEvaluated()).toEqual([]);
    expect(form.summary("Building, guarded")).toBeCloseToRelative(total(guarded) / volume);
    expect(form.summary("Building, unguarded")).toBeCloseToRelative(total(unguarded) / volume);
    expect(form.summary("From the neighbours")).toBeCloseToRelative(total(unguarded) - total(guarded));
    expect(form.summary("Verdict")).toBe(verdict);
    expect(form.cell("Overview!B13")).toBe(verdict.toUpperCase());
    expect(form.verify()).toEqual([]);
  });
});
