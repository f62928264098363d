import { describe, expect, test } from "vitest";
import { agreement, normal, rectangular, simulate, type Output, type Source } from "../../../../src/core";
import { made } from "./prepared";

test.each([
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.9004, upper: 1.0996 }, 0.015, "validated"],
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.904, upper: 1.1 }, 0.015, "acceptable"],
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.9, upper: 1.1052 }, 0.015, "neither"],
  [{ lower: 0.9, upper: 1.1 }, { lower: 0.9, upper: 1.1052 }, 0.15, "acceptable"],
])("agreement of %o and %o with u = %d: %s", (budget, found, uncertainty, outcome) => {
  expect(agreement(budget, found, uncertainty)).toBe(outcome);
});

describe("simulation", () => {
  const terms = { trials: 20_000, seed: 7, confidence: 0.95 };
  const flow: Output = { of: "flow", pressure: 50 };
  const exact = made("depressurization", { isExact: true });
  const run = (sources: Source[], shared: Source[] = [], test = exact) =>
    simulate([{ test, sources }], shared, [([result]) => result!(flow)], terms);

  test("one rectangular source fills its interval evenly; one normal source has its quantiles", () => {
    const [level] = run([]).distributions!;
    const even = run([rectangular("x", "flowGain", 0.01)]).distributions![0]!;
    expect(Math.abs((even.upper - level!.mean) / Math.log(1.0095) - 1)).toBeLessThan(0.01);
    expect(even.standardDeviation).toBeCloseTo(0.01 / Math.sqrt(3), 4);
    const bell = run([], [normal("x", "flowGain", 0.01)]).distributions![0]!;
    expect(Math.abs((bell.upper - bell.lower) / 2 / 0.0196 - 1)).toBeLessThan(0.03);
  });

  test("too many trials that could not be evaluated give no result", () => {
    const { dropped, distributions } = run([rectangular("x", "offset", 14)]);
    expect(dropped).toBeGreaterThan(20);
    expect(distributions).toBeUndefined();
  });

  test("the same seed gives the same numbers, another one others", () => {
    const scattered = made("depressurization");
    expect(run([], [], scattered)).toEqual(run([], [], scattered));
    expect(run([], [], scattered)).not.toEqual(run([], [], exact));
  });
});
