import { describe, expect, test } from "vitest";
import { randomStream, simulate, type Output, type TrialResult } from "../../src/core";
import { noiseOf, preparedTest, sourcesOf } from "./support/budgets";
import { expectAgreement } from "./support/compare";
import vectors from "./uncertainty-vectors/vectors.json";

describe.each(vectors.generator)("xoshiro128** from seed $seed", (given) => {
  test("integers to the last bit", () => {
    const { integer } = randomStream(given.seed);
    expect(given.first_integers.map(() => integer())).toEqual(given.first_integers);
  });

  test("normals, their mean and mean square", () => {
    const first = randomStream(given.seed);
    given.first_normals.forEach((value) =>
      expectAgreement(first.normal(), value, 1e-12, "fifteen digits are given; the sine and cosine of the machine"),
    );
    const { normal } = randomStream(given.seed);
    let [sum, squares] = [0, 0];
    for (let count = 0; count < 100_000; count++) {
      const value = normal();
      sum += value;
      squares += value ** 2;
    }
    expect(Math.abs(sum / 100_000 - given.mean_of_100000)).toBeLessThan(1e-12);
    expectAgreement(squares / 100_000, given.mean_square, 1e-9, "ten digits are given");
  });

  test("another seed gives another stream; a uniform is never 0 or 1", () => {
    expect(randomStream(given.seed + 1).integer()).not.toBe(given.first_integers[0]);
    const { uniform } = randomStream(given.seed);
    const values = Array.from({ length: 10_000 }, uniform);
    expect(values.filter((value) => !(value > 0 && value < 1))).toEqual([]);
  });
});

/** 200 000 trials against 1 000 000 of another generator: the file allows 3 % of the width for an endpoint. */
const trials = 200_000;
const n50: Output = { of: "flow", pressure: 50, perSize: true };
const exponent: Output = { of: "exponent" };

describe.each(vectors.monte_carlo.map((given, index) => ({ given, index })))(
  "Monte Carlo of budget $index",
  ({ given, index }) => {
    const { inputs } = vectors.budgets[index]!;
    const { shared } = sourcesOf(inputs, 0);
    const mean = (results: readonly TrialResult[]) =>
      results.reduce((sum, result) => sum + Math.exp(result(n50)), 0) / results.length / inputs.volume;

    test.each(["stated random", "regression scatter"] as const)("%s", (mode) => {
      const expected = given[mode];
      const directions = [0, 1].map((number) => ({
        test: preparedTest(inputs, number, "ISO 9972"),
        sources: sourcesOf(inputs, number).own,
        random: mode === "stated random" ? noiseOf(inputs, number) : ("scatter" as const),
      }));
      const outputs = [
        mean,
        ...[0, 1].map((number) => (results: readonly TrialResult[]) => results[number]!(exponent)),
      ];
      const { distributions, dropped } = simulate(directions, shared, outputs, { trials, seed: 1, confidence: 0.95 });
      if (!distributions) throw new Error(`${dropped} trials dropped`);
      const expectEnds = (lower: number, upper: number, found: { lower: number; upper: number }) => {
        const allowed = expected.tolerance_relative_to_width * (upper - lower);
        expect(Math.abs(found.lower - lower)).toBeLessThan(allowed);
        expect(Math.abs(found.upper - upper)).toBeLessThan(allowed);
      };
      const [ofMean, ...ofExponents] = distributions;
      expectEnds(expected.lower, expected.upper, ofMean!);
      expect(Math.abs(ofMean!.mean - expected.mean)).toBeLessThan(0.01 * expected.standard_deviation);
      // Of χ² with few degrees of freedom the deviation has heavy tails, so its square settles slowly.
      expectAgreement(ofMean!.standardDeviation, expected.standard_deviation, 0.03, "the file's own 3 %");
      ofExponents.forEach((found, number) => {
        const [lower, upper] = expected.n_lower_upper[number]!;
        expectEnds(lower!, upper!, found);
      });
    });
  },
);
