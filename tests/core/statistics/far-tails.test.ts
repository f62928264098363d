// Values far out, where a tail cannot be had from 1 less the other one. All computed at sixty digits from the definitions: erfc, incomplete gamma and beta functions.
import { expect, test } from "vitest";
import { chiSquareProbability, normalProbability, normalQuantile, studentT } from "../../../src/core";

const expectDigits = (actual: number, expected: number, relative: number) =>
  expect(Math.abs(actual / expected - 1), `${actual} against ${expected}`).toBeLessThan(relative);

test.each([
  [-37.3, 8.205494844930773e-305],
  [-30.01, 3.6335928149653536e-198],
  [-22.22, 1.100350283349158e-109],
  [-10.07, 3.748904239624201e-24],
  [-5.123, 1.5035617470355647e-7],
  [-3.3, 0.0004834241423837775],
])("normal probability of %d", (z, expected) => {
  expectDigits(normalProbability(z), expected, 1e-14);
});

test.each([
  [5e-324, 38.467405617144344],
  [1e-310, 37.663060331949524],
  [1e-300, 37.0470962993612],
  [1e-100, 21.273453560965326],
  [1e-16, 8.222082216130435],
  [0.025, 1.9599639845400543],
  [0.49, 0.025068908258711057],
])("normal quantile of a tail of %d", (tail, expected) => {
  expectDigits(normalQuantile(tail), expected, 2e-14);
});

test.each([40, 22_741.97, 40_000.04, 3.2e7 + 0.04, 1e300, Infinity])(
  "beyond the smallest number: normal tail at %d is 0, the rest 1",
  (z) => {
    expect([normalProbability(-z), normalProbability(z)]).toEqual([0, 1]);
  },
);

test("half of a normal distribution lies above 0 exactly", () => {
  expect(normalQuantile(0.5)).toBe(0);
});

test.each([
  [1, 1e-20, 1.5707963267948964e-40],
  [2, 1e-300, 2e-300],
  [5, 1e-300, 3.233407780583128e-120],
  [77, 1e-300, 4.908731087398217e-7],
  [5000, 1e-300, 2147.618284442044],
  [0.3, 0.2, 2.7578659170567948e-5],
  [77, 0.2, 66.40937750645791],
  [400, 0.8, 423.5895067241475],
  [77, 0.975, 103.15811190134659],
  [1, 0.9999, 15.136705226623604],
  [10, 1 - 2 ** -50, 93.92753486984154],
  [100_000, 0.025, 99125.37330064735],
  [100_000, 0.975, 100878.41530566556],
])("χ² with %d degrees of freedom, its point of %d", (degreesOfFreedom, probability, point) => {
  expectDigits(chiSquareProbability(point, degreesOfFreedom), probability, 1e-10);
});

test.each([
  [1, 1 - 2 ** -50, 716770142402832.4],
  [1.5, 1 - 2 ** -50, 8966980197.166824],
  [1000, 1 - 2 ** -50, 8.17526482434236],
  [5000, 1 - 2 ** -50, 8.067875206700453],
  [5000, 0.95, 1.9604385517065075],
  [1e6, 1 - 2 ** -50, 8.04153196878427],
])("Student's t of %d degrees of freedom at a confidence of %d", (degreesOfFreedom, confidence, expected) => {
  expectDigits(studentT(confidence, degreesOfFreedom), expected, 1e-13);
});
