import { expect, test } from "vitest";
import { simulate } from "./uncertainty-vectors/program/monte-carlo";
import { randomNumbers } from "./uncertainty-vectors/program/random-numbers";
import { budgets } from "./uncertainty-vectors/program/stored";
import vectors from "./uncertainty-vectors/vectors.json";

const trials = 20_000;

/** Five standard errors of a share, by which two independent runs, this and the stored one, may differ; and one trial, for shares near 0. */
function expectShare(count: number, of: number, share: number, storedTrials: number): void {
  const standardError = Math.sqrt(share * (1 - share) * (1 / of + 1 / storedTrials));
  expect(Math.abs(count / of - share)).toBeLessThanOrEqual(1 / of + 5 * standardError);
}

const runs = vectors.monte_carlo.map((stored) => ({
  stored,
  name: budgets[stored.budget]!.inputs.name,
  found: simulate(budgets[stored.budget]!.inputs, trials, 1),
}));

test.each(runs)("trials that are dropped: $name", ({ found, stored }) => {
  expectShare(found.dropped, trials, stored.dropped / stored.trials, stored.trials);
  expect(stored.result === null).toBe(stored.dropped > 0.001 * stored.trials);
});

const withResult = runs.filter(({ stored }) => stored.result !== null);

test.each(withResult)("as many values beyond each stored end as it leaves outside: $name", ({ found, stored }) => {
  const { lower, upper, n_lower_upper } = stored.result!;
  expect(found.exponents.length).toBe(n_lower_upper.length);
  const compared = [
    [found.n50, lower, upper] as const,
    ...found.exponents.map(
      (values, index) => [values, ...n_lower_upper[index]!] as unknown as [Float64Array, number, number],
    ),
  ];
  for (const [values, low, high] of compared) {
    expectShare(values.filter((value) => value < low).length, values.length, 0.025, stored.trials);
    expectShare(values.filter((value) => value > high).length, values.length, 0.025, stored.trials);
  }
});

test("one test is so noisy that it has no result, the others have one", () => {
  expect(runs.length - withResult.length).toBe(1);
});

test("the generator's uniform and normal numbers have the moments of their laws, and follow their seed", () => {
  const [first, again, other] = [randomNumbers(7), randomNumbers(7), randomNumbers(8)];
  const values = Array.from({ length: 100_000 }, first.normal);
  expect(values.slice(0, 5)).toEqual(Array.from({ length: 5 }, again.normal));
  expect(other.normal()).not.toBe(values[0]);
  const moment = (list: readonly number[], power: number) =>
    list.reduce((sum, value) => sum + value ** power, 0) / list.length;
  // Five standard errors: the variances of z, z², z⁴ are 1, 2, 96; of u and u² 1/12 and 4/45.
  const within = (found: number, expected: number, variance: number) =>
    expect(Math.abs(found - expected)).toBeLessThan(5 * Math.sqrt(variance / 100_000));
  within(moment(values, 1), 0, 1);
  within(moment(values, 2), 1, 2);
  within(moment(values, 4), 3, 96);
  const uniform = Array.from({ length: 100_000 }, other.uniform);
  within(moment(uniform, 1), 1 / 2, 1 / 12);
  within(moment(uniform, 2), 1 / 3, 4 / 45);
});
