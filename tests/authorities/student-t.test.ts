import { describe, expect, test } from "vitest";
import { studentT } from "../../src/core";
import { exact } from "./high-precision/decimal";
import { studentQuantile } from "./high-precision/student";
import vectors from "./student-t/vectors.json";
import { expectAgreement, expectPrinted } from "./support/compare";
import { authorityTable, numbers } from "./support/files";

const table = authorityTable("student-t/table.csv");
const oneSided = numbers(table, "t_0.95_onesided");
const twoSided = numbers(table, "t_0.975");

describe("published table of Student's t", () => {
  test.each(numbers(table, "df").map((degrees, row) => ({ degrees, row })))(
    "$degrees degrees of freedom",
    ({ degrees, row }) => {
      expectPrinted(studentT(0.95, degrees), twoSided[row] ?? NaN, 6);
      expectPrinted(studentT(0.9, degrees), oneSided[row] ?? NaN, 6);
    },
  );
});

describe("quantiles of 15 digits", () => {
  test.each(vectors.quantiles)("$dof degrees of freedom", ({ dof, t }) => {
    expectAgreement(studentT(0.95, dof), t, 1e-13, "the vectors are rounded to 15 digits");
  });
});

describe("fifty digits by the finite sums of Abramowitz and Stegun 26.7", () => {
  const confidences = [0.5, 0.68, 0.9, 0.95, 0.975, 0.99, 0.999, 0.999999];
  const degrees = [
    1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 16, 17, 22, 29, 38, 50, 63, 64, 65, 98, 120, 198, 199, 500, 998,
  ];

  test.each(degrees)("%d degrees of freedom", (dof) => {
    for (const confidence of confidences) {
      const expected = studentQuantile(dof, exact(confidence)).toNumber();
      expectAgreement(
        studentT(confidence, dof),
        expected,
        1e-12,
        "a quantile must not be what limits a result of 1e-10",
      );
    }
  });

  test("the quantile grows with confidence and falls with the degrees of freedom", () => {
    for (const dof of degrees) {
      const values = confidences.map((confidence) => studentT(confidence, dof));
      expect([...values].sort((a, b) => a - b)).toEqual(values);
    }
    for (const confidence of confidences) {
      const values = degrees.map((dof) => studentT(confidence, dof));
      expect([...values].sort((a, b) => b - a)).toEqual(values);
    }
  });
});
