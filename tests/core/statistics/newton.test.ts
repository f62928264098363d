import { expect, test } from "vitest";
import { settledOn } from "../../../src/core/statistics/distributions";

test("a step that only rounding moves ends the search: it does not run through all its steps", () => {
  let steps = 0;
  // Newton's steps to √2, each off by 4e-15 to one side and then to the other.
  const root = settledOn(2, (x) => {
    steps += 1;
    return ((x + 2 / x) / 2) * (1 + (steps % 2 === 0 ? -1 : 1) * 4e-15);
  });
  expect(steps).toBeLessThan(12);
  expect(Math.abs(root / Math.SQRT2 - 1)).toBeLessThan(1e-14);
});
