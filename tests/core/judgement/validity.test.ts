import { describe, expect, test } from "vitest";
import {
  checkNames,
  countExactZeros,
  methodVersion,
  validityChecks,
  type CheckName,
  type LeakageFit,
  type TestFacts,
} from "../../../src/core";
import { points, calm, check } from "./checks";

/** Facts of one direction of which nothing is known yet but the direction. */
const nothing: TestFacts = {
  direction: "depressurization",
  baselineBefore: [],
  points: [],
  count: 0,
  technique: "ordinary",
};

/** A fit of which only these numbers matter. */
const fit = (numbers: Partial<LeakageFit>) => ({ exponent: 0.65, determination: 0.999, ...numbers }) as LeakageFit;

test("of a form that is not filled in nothing is met and nothing is broken, but for what it has: direction, technique and no readings", () => {
  const known: Partial<Record<CheckName, object>> = {
    direction: { measured: "depressurization", limit: "both", outcome: "cannot be judged" },
    count: { measured: 0, outcome: "not met" },
    technique: { measured: "ordinary", limit: "ordinary", outcome: "met" },
    method: { measured: methodVersion, limit: undefined, outcome: "", binding: false },
  };
  for (const one of validityChecks(nothing, "ISO 9972")) {
    const expected = known[one.name];
    if (expected !== undefined) expect(one).toMatchObject(expected);
    else {
      expect([one.name, one.measured]).toEqual([one.name, undefined]);
      expect(["cannot be judged", ""]).toContain(one.outcome);
    }
  }
});

describe("pressures", () => {
  test("lowest, highest, span and largest step, in whatever order they were read", () => {
    const facts = { points: points(60, 20, 45, 27) };
    expect(check("dp_min", facts).measured).toBe(20);
    expect(check("dp_max", facts).measured).toBe(60);
    expect(check("dp_span", facts).measured).toBe(40);
    expect(check("dp_step", facts)).toMatchObject({ measured: 18, outcome: "not met" });
  });

  test("two readings have a span and a step, one has none", () => {
    expect(check("dp_span", { points: points(20, 25) }).measured).toBe(5);
    expect(check("dp_step", { points: points(20, 25) })).toMatchObject({ measured: 5, outcome: "met" });
    expect(check("dp_span", { points: points(20) }).measured).toBeUndefined();
    expect(check("dp_step", { points: points(20) })).toMatchObject({
      measured: undefined,
      outcome: "cannot be judged",
    });
  });

  test("how far a result lies beyond the readings, above or below", () => {
    expect(check("reach_50", { points: points(20, 40) })).toMatchObject({ measured: 1.25, outcome: "not met" });
    expect(check("reach_50", { points: points(20, 60) })).toMatchObject({ measured: 50 / 60, outcome: "met" });
    expect(check("reach_4", { points: points(10, 60) })).toMatchObject({ measured: 2.5, outcome: "not met" });
    expect(check("reach_pr", { referencePressure: 75 }).measured).toBe(1.25);
    expect(check("reach_pr", {}).measured).toBeUndefined();
    expect(check("reach_50", { points: [] }).measured).toBeUndefined();
  });
});

describe("the line", () => {
  test("r has the sign of the slope", () => {
    expect(check("r", { fit: fit({ determination: 0.81 }) }).measured).toBeCloseTo(0.9, 14);
    expect(check("r", { fit: fit({ determination: 0.81, exponent: -0.2 }) }).measured).toBeCloseTo(-0.9, 14);
    expect(check("r", {}).measured).toBeUndefined();
    expect(check("r", { fit: fit({ determination: 0.9999, exponent: -0.2 }) }, "CGSB 149.10").outcome).toBe("not met");
  });

  test("n and r² are those of the fit, absent without one", () => {
    expect(check("n", { fit: fit({ exponent: 0.7 }) })).toMatchObject({ measured: 0.7, outcome: "met" });
    expect(check("r2", { fit: fit({ determination: 0.97 }) })).toMatchObject({ measured: 0.97, outcome: "not met" });
    expect(check("n", {}).outcome).toBe("cannot be judged");
    expect(check("s_q10", {}).measured).toBeUndefined();
  });
});

describe("directions apart", () => {
  test("the difference of the two flows in % of their mean; unknown without both", () => {
    expect(check("q50_apart", { flowAt50: 95, flowAt50Otherwise: 105 })).toMatchObject({
      measured: 10,
      outcome: "met",
    });
    expect(check("q50_apart", { flowAt50: 106, flowAt50Otherwise: 94 })).toMatchObject({
      measured: 12,
      outcome: "not met",
    });
    expect(check("q50_apart", { flowAt50: 95 }).measured).toBeUndefined();
    expect(check("q50_apart", { flowAt50Otherwise: 95 }).measured).toBeUndefined();
  });
});

test("every check tells its clause, mark and weight where the standard has a limit, nothing where it has none", () => {
  const names = validityChecks(calm, "ASTM E3158").map((one) => {
    if (one.limit === undefined) expect(one).toMatchObject({ outcome: "", binding: false, origin: undefined });
    else expect(one.origin?.clause.length).toBeGreaterThan(2);
    return one.name;
  });
  expect(names).toEqual([...checkNames]);
  expect(check("n", {}, "ASTM E3158")).toMatchObject({
    origin: { clause: "9.5.1", mark: "C" },
    binding: true,
    limit: { lower: 0.45, upper: 1 },
  });
});

test("a reason for staying below the usual highest pressure moves that limit alone", () => {
  const low = { ...calm, points: points(20, 30) };
  const limits = (reasonStated: boolean) =>
    Object.fromEntries(validityChecks(low, "ISO 9972", { reasonStated }).map(({ name, limit }) => [name, limit]));
  const [usual, relaxed] = [limits(false), limits(true)];
  expect(relaxed.dp_max).toMatchObject({ lower: 25, binding: true });
  expect(usual.dp_max).toMatchObject({ lower: 50 });
  expect({ ...relaxed, dp_max: undefined }).toEqual({ ...usual, dp_max: undefined });
});

test("a limit for the wind at a weather station is a limit of the wind only", () => {
  const atStation = validityChecks({ ...calm, beaufort: 4 }, "ISO 9972", { windPlace: "weather station" });
  expect(atStation.find(({ name }) => name === "wind")!.limit).toMatchObject({ upper: 6 });
  expect(atStation.find(({ name }) => name === "beaufort")).toMatchObject({ limit: { upper: 2 }, outcome: "not met" });
});

describe("exact zeros of the baseline", () => {
  const zeros = (baselineBefore: number[], baselineAfter?: number[]) => {
    const { measured, of, outcome } = check("zeros_dp0", { baselineBefore, baselineAfter });
    return [measured, of, outcome];
  };

  test("are counted in both sets, among readings that are not", () => {
    expect(zeros([-1.2, 0, -1.4], [0, -0, 1])).toEqual([3, 6, "not met"]);
    expect(zeros([0, 0], [0, 0])).toEqual([0, 4, "met"]);
    expect(zeros([0.1, -0.1])).toEqual([0, 2, "met"]);
    expect(zeros([])).toEqual([undefined, undefined, "cannot be judged"]);
  });

  test("a small reading is none", () => {
    expect(countExactZeros([1e-12, -0.05])).toBe(0);
  });
});

describe("the range of the baseline (RESNET/ICC 380)", () => {
  const range = (baselineBefore: number[], baselineAfter?: number[]) =>
    check("dp0_range", { baselineBefore, baselineAfter }, "RESNET/ICC 380");

  test("is the highest less the lowest reading of all", () => {
    expect(range([-3, 1], [0, 1.5])).toMatchObject({ measured: 4.5, outcome: "met", binding: false });
    expect(range([-3, 1, 2.1])).toMatchObject({ measured: 5.1, outcome: "not met" });
    expect(range([])).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
  });

  test("an average may hide more of it", () => {
    expect(range([-3], [1])).toMatchObject({ measured: 4, outcome: "cannot be judged" });
    expect(range([-3], [3])).toMatchObject({ measured: 6, outcome: "not met" });
    expect(range([-3, 1], [1])).toMatchObject({ measured: 4, outcome: "cannot be judged" });
  });
});

test("intervals: in % at 50 Pa, per area at 75 Pa; unknown without a line", () => {
  expect(check("ci_q50", { halfIntervalAt50: 0.1 }, "RESNET/ICC 380 multi-point")).toMatchObject({
    measured: 10,
    outcome: "met",
  });
  expect(check("ci_q50", { halfIntervalAt50: 0 }).measured).toBe(0);
  expect(check("ci_q50", {}).measured).toBeUndefined();
  expect(check("ci_qE75", { halfIntervalAt75: 0.4 }, "US Army Corps")).toMatchObject({
    measured: 0.4,
    outcome: "not met",
    binding: true,
  });
  expect(check("ci_qE75", {}, "US Army Corps").outcome).toBe("cannot be judged");
});
