import { expect, test } from "vitest";
import { baselineMovement, baselineSet, stackHalfWidth, windHalfWidth } from "../../../../src/core";

test("baselines: standard error, what the gauge resolves, one value only", () => {
  const { uncertainty, degreesOfFreedom } = baselineSet([1, 2, 3, 4], 0.1, 0.2);
  expect(Math.abs(uncertainty - Math.sqrt(5 / 3 / 4))).toBeLessThan(1e-15);
  expect(degreesOfFreedom).toBe(3);
  expect(baselineSet([1, 1, 1], 0.1, 0.2)).toEqual({ uncertainty: 0.1 / Math.sqrt(12), degreesOfFreedom: Infinity });
  expect(baselineSet([1], 0.1, 0.2)).toEqual({ uncertainty: 0.2, degreesOfFreedom: 8 });
});

test("two baseline readings have a scatter of their own: u = |a − b|/2, one degree of freedom", () => {
  expect(baselineSet([-1, -3], 0.1, 0.5)).toEqual({ uncertainty: 1, degreesOfFreedom: 1 });
});

test("movement of the baseline counts beyond its own uncertainty only", () => {
  expect(baselineMovement(-1.4, -0.8, 0, 0)).toBeCloseTo(0.6, 15);
  expect(baselineMovement(-1.4, -0.8, 0.3, 0.3) ** 2).toBeCloseTo(0.36 - 0.18, 15);
  expect(baselineMovement(-1, -1.1, 0.3, 0.3)).toBe(0);
});

test("wind and stack: a tenth of 0.5·1.25·2² Pa, and of 3.5 Pa over 8 m at 20/0 °C twice over", () => {
  expect(windHalfWidth(0.1, 1, 1.25, 2)).toBeCloseTo(0.25, 15);
  expect(stackHalfWidth(0.1, 1.2922, 8, { indoor: 20, outdoor: 0 })).toBeCloseTo(0.1 * 6.916, 3);
});
