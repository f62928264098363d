import { describe, expect, test } from "vitest";
import { checkNames, validityChecks, type LeakageFit, type TestFacts } from "../../../src/core";
import { points, calm, check } from "./checks";

/** Facts of one direction of which nothing is known yet but the direction. */
const nothing: TestFacts = { direction: "depressurization", baselineBefore: [], points: [], count: 0 };

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
