import { describe, expect, test } from "vitest";
import { integral } from "../../../src/core/statistics/integral";
import { expectAgreement } from "../../authorities/support/compare";

describe("an integral by the double exponential rule", () => {
  test.each<[string, (x: number) => number, number, number, number]>([
    ["a polynomial", (x) => x ** 5, -1, 2, 10.5],
    ["e^x", Math.exp, 0, 1, Math.E - 1],
    ["half a bell that ends far out", (x) => Math.exp((-x * x) / 2), 0, 40, Math.sqrt(Math.PI / 2)],
    ["a narrow bell at an end", (x) => Math.exp(-((x / 1e-5) ** 2) / 2), 0, 40, 1e-5 * Math.sqrt(Math.PI / 2)],
    ["a slope that is infinite at an end", (x) => Math.sqrt(x), 0, 4, 16 / 3],
    ["a tail that falls slowly", (x) => 1 / (1 + x * x), 0, 1000, Math.atan(1000)],
  ])("%s", (_, f, from, to, value) => {
    expectAgreement(integral(f, from, to), value, 1e-12, "the rule stops at 1e-13 of the sum");
  });

  test("between ends that do not rise it is 0", () => {
    expect([integral(Math.exp, 1, 1), integral(Math.exp, 2, 1)]).toEqual([0, 0]);
  });
});
