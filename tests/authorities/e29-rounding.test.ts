import { describe, expect, test } from "vitest";
import { verdict } from "../../src/core";
import source from "./e29-rounding/vectors.json";

/** Whether a result rounded to so many decimals passes a limit: the core shows its rounding only by its verdict. */
function passes(result: number, limit: number, decimals: number): boolean {
  return verdict(result, limit, { rule: "plain", decimals }) === "pass";
}

describe("ASTM E29, rounding method: round once, ties to even, on the decimal form", () => {
  const positive = source.rounding.filter(({ value }) => value > 0);

  test.each(positive)("$value to $decimals decimals is $e29", ({ value, decimals, e29 }) => {
    const unit = 10 ** -decimals;
    expect(passes(value, e29, decimals)).toBe(true);
    expect(passes(value, e29 - unit / 2, decimals)).toBe(false);
  });
});

describe("a limit met exactly, in binary numbers", () => {
  test.each(source.at_the_limit)("$written_as against $target: $plain", ({ result, target, plain }) => {
    expect(verdict(result, target, { rule: "plain" })).toBe(plain);
  });
});
