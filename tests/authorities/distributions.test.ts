import { describe, expect, test } from "vitest";
import { chiSquareProbability, normalProbability, normalQuantile, studentProbability, studentT } from "../../src/core";
import reference from "./distributions/reference.json";
import tables from "./distributions/tables.json";
import { expectAgreement, expectPrinted } from "./support/compare";

const FIFTY = "the reference has twenty digits, computed in fifty";

describe("normal distribution", () => {
  test.each(reference.normal_tail)("both tails at $z", ({ z, tail }) => {
    expectAgreement(normalProbability(-z), Number(tail), 1e-13, FIFTY);
    expectAgreement(normalProbability(z), 1 - Number(tail), 1e-15, FIFTY);
  });

  test.each(reference.normal_quantile)("quantile of a tail of $tail", ({ tail, z }) => {
    const miss = Math.abs(normalQuantile(tail) - Number(z));
    expect(miss).toBeLessThanOrEqual(1e-13 * Math.max(Number(z), 0.01));
    // 1 − tail is rounded to 1e-16, which a thin tail feels.
    if (tail < 1e-13) return;
    expect(Math.abs(normalQuantile(1 - tail) + Number(z))).toBeLessThan(1e-12 + 2e-16 / tail);
  });

  test("tables", () => {
    for (const [z = NaN, below = NaN] of tables.normal_below) expectPrinted(normalProbability(z), below, 4);
    for (const [tail = NaN, z = NaN] of tables.normal_quantile) expectPrinted(normalQuantile(tail), z, 4);
  });

  test("the median, and what is no probability", () => {
    expect([normalQuantile(0.5), normalProbability(0)]).toEqual([0, 0.5]);
    for (const tail of [0, 1, -0.1, 1.1, NaN]) expect(() => normalQuantile(tail)).toThrow("probability");
  });
});

describe("Student's distribution", () => {
  test.each(reference.student_tail)("both tails at $t with $dof degrees of freedom", ({ dof, t, tail }) => {
    expectAgreement(studentProbability(-t, dof), Number(tail), 2e-13, FIFTY);
    expectAgreement(studentProbability(t, dof), 1 - Number(tail), 1e-14, FIFTY);
  });

  test.each(reference.student_quantile)("quantile of $confidence with $dof degrees of freedom", (row) => {
    expectAgreement(studentT(row.confidence, row.dof), Number(row.t), 1e-13, FIFTY);
  });

  test("closed forms of 1 and 2 degrees of freedom", () => {
    for (const t of [-50, -3, -0.2, 0, 0.7, 4, 30]) {
      const one = t < 0 ? Math.atan(-1 / t) / Math.PI : 0.5 + Math.atan(t) / Math.PI;
      expectAgreement(studentProbability(t, 1), one, 1e-14, "arc tangent");
      const root = Math.sqrt(2 + t * t);
      const two = t < 0 ? 1 / (root * (root - t)) : 0.5 + t / (2 * root);
      expectAgreement(studentProbability(t, 2), two, 1e-14, "an algebraic function");
    }
  });

  test("infinite degrees of freedom are the normal distribution, and very many come near it", () => {
    expect(studentProbability(-1.5, Infinity)).toBe(normalProbability(-1.5));
    expect(studentT(0.95, Infinity)).toBe(normalQuantile((1 - 0.95) / 2));
    expectPrinted(studentT(0.95, Infinity), 1.959964, 6);
    for (const t of [-4, -1, 0.5, 3]) {
      expectAgreement(studentProbability(t, 1e15), normalProbability(t), 1e-13, "(t⁴/4ν) is left");
    }
  });

  test("no step where the way of calculating changes", () => {
    for (const t of [0.3, 1.7, 1.74, 3, 7.6]) {
      const [below, above] = [studentProbability(-t, 999.9999), studentProbability(-t, 1000)];
      expectAgreement(below, above, 1e-9 + t ** 4 * 3e-11, "ln of the tail falls by t⁴/4ν² a degree of freedom");
      expect(below).toBeGreaterThanOrEqual(above);
    }
    expectAgreement(studentT(0.95, 4999.999), studentT(0.95, 5000), 1e-9, "the degrees of freedom differ by 2e-7");
  });

  test("the probability undoes the quantile", () => {
    for (const dof of [1, 2.5, 8, 171, 4000, 6000, 1e7]) {
      for (const confidence of [0.5, 0.9, 0.95, 0.999]) {
        const tail = studentProbability(-studentT(confidence, dof), dof);
        expectAgreement(2 * tail, 1 - confidence, 1e-12, "1 − confidence is known to 1e-16 of 1");
      }
    }
  });

  test("ends, and degrees of freedom that are none", () => {
    expect([studentProbability(0, 3), studentProbability(Infinity, 3), studentProbability(-Infinity, 2000)]).toEqual([
      0.5, 1, 0,
    ]);
    for (const dof of [0, 0.5, -1, NaN]) expect(() => studentProbability(1, dof)).toThrow("degrees of freedom");
  });
});

describe("χ² distribution", () => {
  test.each(reference.chi_square)("2.5 and 97.5 % points with $dof degrees of freedom", ({ dof, lower, upper }) => {
    expectAgreement(chiSquareProbability(Number(lower), dof), 0.025, 1e-12, FIFTY);
    expectAgreement(chiSquareProbability(Number(upper), dof), 0.975, 1e-14, FIFTY);
  });

  test("tables: the points lie where they are printed", () => {
    const half = 0.5001e-3;
    for (const [dof = NaN, lower = NaN, upper = NaN] of tables.chi_square) {
      for (const [point, probability] of [
        [lower, 0.025],
        [upper, 0.975],
      ] as const) {
        expect(chiSquareProbability(point - half, dof), `below ${point}`).toBeLessThan(probability);
        expect(chiSquareProbability(point + half, dof), `above ${point}`).toBeGreaterThan(probability);
      }
    }
  });

  test("two degrees of freedom in closed form, one as the square of a normal variable", () => {
    for (const value of [1e-9, 0.01, 0.5, 2, 3.9, 4.1, 9, 60]) {
      expectAgreement(chiSquareProbability(value, 2), -Math.expm1(-value / 2), 1e-14, "an exponential distribution");
      const within = 1 - 2 * normalProbability(-Math.sqrt(value));
      expect(Math.abs(chiSquareProbability(value, 1) - within)).toBeLessThan(1e-15);
    }
  });

  test("at the ends, and where χ² is no number any more", () => {
    expect([0, -1, 1e300, Number.MAX_VALUE, Infinity].map((value) => chiSquareProbability(value, 3))).toEqual([
      0, 0, 1, 1, 1,
    ]);
  });
});
