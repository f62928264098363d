import { describe, expect, test } from "vitest";
import {
  chiSquareProbability,
  normalProbability,
  normalQuantile,
  studentProbability,
  studentT,
} from "../../../src/core";
import { refuses, takes } from "../refusals";

refuses("invalid", [
  ["probability: probability", () => normalQuantile(0)],
  ["probability: probability", () => normalQuantile(1)],
  ["probability: probability", () => normalQuantile(NaN)],
  ["confidence: confidence", () => studentT(0.49, 5)],
  ["confidence: confidence", () => studentT(1, 5)],
  ["degrees of freedom: oneOrMore", () => studentT(0.95, 0.9)],
  ["degrees of freedom: oneOrMore", () => studentProbability(1, 0.9)],
]);
takes([
  ["confidence 0.5", () => studentT(0.5, 5)],
  ["1 degree of freedom", () => studentT(0.95, 1)],
]);

const near = (actual: number, expected: number, tolerance = 1e-12) =>
  expect(Math.abs(actual / expected - 1), `${actual} against ${expected}`).toBeLessThan(tolerance);

describe("closed forms", () => {
  test.each([0.5, 0.6, 0.9, 0.95, 0.99, 0.9999])("Student's t with 1 and 2 degrees of freedom at %d", (level) => {
    near(studentT(level, 1), Math.tan((Math.PI * level) / 2));
    near(studentT(level, 2), level * Math.sqrt(2 / (1 - level ** 2)));
    // ν = 4: t = 2·√(cos(arccos(√α)/3)/√α − 1), α = 1 − P².
    const alpha = Math.sqrt(1 - level ** 2);
    near(studentT(level, 4), 2 * Math.sqrt(Math.cos(Math.acos(alpha) / 3) / alpha - 1), 1e-11);
  });

  test.each([-30, -2, -0.5, 0.1, 1, 4])("Student's probability with 1 and 2 degrees of freedom at t = %d", (t) => {
    near(studentProbability(t, 1), t < -1 ? Math.atan(-1 / t) / Math.PI : 0.5 + Math.atan(t) / Math.PI);
    const root = Math.sqrt(2 + t * t);
    // (1 + t/√(2 + t²))/2, written so that the far tail keeps its digits.
    near(studentProbability(t, 2), t < 0 ? 1 / (root * (root - t)) : 1 - 1 / (root * (root + t)));
  });

  test("ends of the distributions", () => {
    expect(studentProbability(0, 7)).toBe(0.5);
    expect(studentProbability(Infinity, 7)).toBe(1);
    expect(studentProbability(-Infinity, 7)).toBe(0);
    expect(normalProbability(0)).toBe(0.5);
    expect(normalQuantile(0.5)).toBeCloseTo(0, 15);
    expect(chiSquareProbability(0, 5)).toBe(0);
    expect(chiSquareProbability(-1, 5)).toBe(0);
  });

  test.each([0.001, 0.3, 1, 2, 5, 20, 60])("χ² with 2 and 4 degrees of freedom at %d", (x) => {
    near(chiSquareProbability(x, 2), -Math.expm1(-x / 2));
    const tail = Math.exp(-x / 2) * (1 + x / 2);
    if (x >= 1) near(chiSquareProbability(x, 4), 1 - tail, 1e-11);
    if (x >= 1) near(1 - chiSquareProbability(x, 4), tail, Math.max(1e-11, 1e-15 / tail));
  });

  test("χ² with one degree of freedom is the square of a normal", () => {
    for (const z of [0.01, 0.5, 1, 1.959963984540054, 3]) {
      near(chiSquareProbability(z * z, 1), 1 - 2 * normalProbability(-z), 1e-11);
    }
  });
});

describe("there and back", () => {
  test.each([1.3, 2.5, 3, 8, 30, 300, 999, 1000, 4999, 5000, 5001, 1e5, Infinity])(
    "Student, %d degrees of freedom",
    (nu) => {
      for (const level of [0.5, 0.68, 0.9, 0.95, 0.999]) {
        near(studentProbability(-studentT(level, nu), nu), (1 - level) / 2, 1e-11);
        near(studentProbability(studentT(level, nu), nu), 1 - (1 - level) / 2, 1e-13);
      }
    },
  );

  test.each([1e-300, 1e-20, 1e-6, 0.02, 0.0227, 0.023, 0.3, 0.49])("normal, a tail of %d", (tail) => {
    near(normalProbability(-normalQuantile(tail)), tail, 1e-12);
    if (tail > 1e-5) near(-normalQuantile(1 - tail), normalQuantile(tail), 1e-9);
  });
});

test("the quantile falls as the degrees of freedom grow, across every change of method", () => {
  const sizes = [1, 1.5, 1.999, 2, 2.001, 3, 10, 100, 1000, 4999.9, 5000, 5000.1, 1e6, Infinity];
  const quantiles = sizes.map((nu) => studentT(0.95, nu));
  quantiles.slice(1).forEach((t, index) => expect(t).toBeLessThan(quantiles[index]!));
});

test("a quantile asked for twice is the same, another one is not taken for it", () => {
  const first = studentT(0.95, 6);
  expect(studentT(0.95, 6)).toBe(first);
  expect(studentT(0.9, 6)).toBeLessThan(first);
  expect(studentT(0.95, 6)).toBe(first);
  expect(studentT(0.95, 7)).toBeLessThan(first);
});

test("far out the two ways of the tail meet: at ν = 1 000 and t² = 0.06·ν", () => {
  const [inside, outside] = [7.745, 7.747].map((t) => studentProbability(-t, 1000));
  // d ln tail/dt is about −(ν + 1)·t/(ν + t²) − 1/t.
  const slope = -(1001 * 7.746) / (1000 + 60) - 1 / 7.746;
  expect(Math.abs(Math.log(outside! / inside!) / 0.002 / slope - 1)).toBeLessThan(0.02);
});
