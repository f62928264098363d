import { describe, expect, test } from "vitest";
import {
  checkNames,
  validityChecks,
  type CheckName,
  type LeakageFit,
  type Standard,
  type TestFacts,
} from "../../../src/core";
import { readings } from "../../authorities/support/leakage";

const points = (...pressures: number[]) =>
  readings(
    pressures,
    pressures.map(() => 100),
  );
/** Facts of one direction of which nothing is known yet but the direction. */
const nothing: TestFacts = { direction: "depressurization", baselineBefore: [], points: [], count: 0 };
const calm: TestFacts = {
  direction: "depressurization",
  baselineBefore: [0.5, -0.5],
  baselineAfter: [0.5, -0.5],
  points: points(20, 30, 40, 50, 60),
  count: 5,
};
const check = (name: CheckName, facts: Partial<TestFacts>, standard: Standard = "ISO 9972") =>
  validityChecks({ ...calm, ...facts }, standard).find((one) => one.name === name)!;
/** A fit of which only these numbers matter. */
const fit = (numbers: Partial<LeakageFit>) => ({ exponent: 0.65, determination: 0.999, ...numbers }) as LeakageFit;

test("of a form that is not filled in nothing is met and nothing is broken, but for what it has: its direction and no readings", () => {
  for (const one of validityChecks(nothing, "ISO 9972")) {
    if (one.name === "direction")
      expect(one).toMatchObject({ measured: "depressurization", limit: "both", outcome: "cannot be judged" });
    else if (one.name === "count") expect(one).toMatchObject({ measured: 0, outcome: "not met" });
    else expect([one.name, one.measured]).toEqual([one.name, undefined]);
    if (one.name !== "count") expect(["cannot be judged", ""]).toContain(one.outcome);
  }
});

describe("means of the baseline", () => {
  test("each side is averaged by itself; a side without readings is 0", () => {
    const facts = { baselineBefore: [1, 2, -4], baselineAfter: [-1, -3] };
    expect(check("dp01+", facts).measured).toBe(1.5);
    expect(check("dp01-", facts).measured).toBe(-4);
    expect(check("dp02+", facts).measured).toBe(0);
    expect(check("dp02-", facts)).toMatchObject({ measured: -2, outcome: "met" });
  });

  test("one value may be an average: it can break a limit, but not show that it is kept", () => {
    expect(check("dp01+", { baselineBefore: [3] })).toMatchObject({ measured: 3, outcome: "cannot be judged" });
    expect(check("dp01+", { baselineBefore: [6] })).toMatchObject({ measured: 6, outcome: "not met" });
    expect(check("dp01-", { baselineBefore: [6] })).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
    expect(check("dp01+", { baselineBefore: [] })).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
  });

  test("a reading of 0 lies on neither side", () => {
    expect(check("dp01+", { baselineBefore: [0, 4] }).measured).toBe(4);
    expect(check("dp01-", { baselineBefore: [0, 4] }).measured).toBe(0);
  });

  test("in % of the lowest pressure: the largest of the four means; partial where one is not known", () => {
    const of = (facts: Partial<TestFacts>) => check("dp0_of_min", facts);
    expect(of({ baselineBefore: [-3, -3], baselineAfter: [1, 1] })).toMatchObject({ measured: 15, outcome: "met" });
    expect(of({ baselineBefore: [-5, -5], baselineAfter: [1, 1] })).toMatchObject({ measured: 25, outcome: "not met" });
    // One value before the test, none after: what is known can break the limit only.
    expect(of({ baselineBefore: [3], baselineAfter: [1, 1] })).toMatchObject({
      measured: 15,
      outcome: "cannot be judged",
    });
    expect(of({ baselineBefore: [-3, -3], baselineAfter: undefined })).toMatchObject({
      measured: 15,
      outcome: "cannot be judged",
    });
    expect(of({ baselineBefore: [-5, -5], baselineAfter: undefined })).toMatchObject({
      measured: 25,
      outcome: "not met",
    });
    expect(of({ points: [] })).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
    expect(of({ baselineBefore: [], baselineAfter: undefined })).toMatchObject({ measured: undefined });
  });

  test("the largest single reading in % of the lowest pressure (US Army Corps), by the same rule", () => {
    const of = (facts: Partial<TestFacts>) => check("reading_of_min", facts, "US Army Corps");
    expect(of({ baselineBefore: [1, -4], baselineAfter: [2, 3] })).toMatchObject({ measured: 20, outcome: "met" });
    expect(of({ baselineBefore: [1, -7], baselineAfter: [2, 3] })).toMatchObject({ measured: 35, outcome: "not met" });
    for (const partly of [
      { baselineBefore: [1, -4], baselineAfter: undefined },
      { baselineBefore: [-4], baselineAfter: [2, 3] },
      { baselineBefore: [1, -4], baselineAfter: [3] },
    ]) {
      expect(of(partly)).toMatchObject({ measured: 20, outcome: "cannot be judged" });
    }
    expect(of({ baselineBefore: [-7], baselineAfter: undefined })).toMatchObject({ measured: 35, outcome: "not met" });
    expect(of({ baselineBefore: [], baselineAfter: undefined }).measured).toBeUndefined();
    expect(of({ points: [] }).measured).toBeUndefined();
  });

  test("how many baseline readings: the smaller of the two sets; with one set only it may still be too few", () => {
    const of = (before: number, after?: number) =>
      check(
        "count_dp0",
        {
          baselineBefore: Array<number>(before).fill(1),
          baselineAfter: after === undefined ? undefined : Array<number>(after).fill(1),
        },
        "US Army Corps",
      );
    expect(of(12, 14)).toMatchObject({ measured: 12, outcome: "met" });
    expect(of(14, 11)).toMatchObject({ measured: 11, outcome: "not met" });
    expect(of(12)).toMatchObject({ measured: 12, outcome: "cannot be judged" });
    expect(of(11)).toMatchObject({ measured: 11, outcome: "not met" });
    expect(of(0)).toMatchObject({ measured: undefined, outcome: "cannot be judged" });
  });
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
    if (one.limit === undefined)
      expect(one).toMatchObject({ outcome: "", clause: "", binding: false, mark: undefined });
    else expect(one.clause.length).toBeGreaterThan(2);
    return one.name;
  });
  expect(names).toEqual([...checkNames]);
  expect(check("n", {}, "ASTM E3158")).toMatchObject({
    clause: "9.5.1",
    mark: "C",
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
  expect(atStation.find(({ name }) => name === "beaufort")).toMatchObject({ limit: { upper: 3 }, outcome: "not met" });
});
