import { expect } from "vitest";

export const pressures = [61, 47, 33, 24, 16, 11];

export const flows = [611, 498, 401, 322, 251, 196];

export const known = { pressure: [0.4, 0.5, 0.3, 0.6, 0.4, 0.5], flow: [9, 6, 8, 5, 6, 4] };

export const ln = (values: readonly number[]) => values.map(Math.log);

export const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

/** The weighted line by its normal equations, as a textbook writes them. */
export function textbook(weights: readonly number[]) {
  const [x, y] = [ln(pressures), ln(flows)];
  const [W, X, Y] = [sum(weights), sum(weights.map((w, i) => w * x[i]!)), sum(weights.map((w, i) => w * y[i]!))];
  const [XX, XY] = [sum(weights.map((w, i) => w * x[i]! ** 2)), sum(weights.map((w, i) => w * x[i]! * y[i]!))];
  const slope = (W * XY - X * Y) / (W * XX - X * X);
  const level = (Y - slope * X) / W;
  const residuals = x.map((value, i) => y[i]! - level - slope * value);
  return { slope, level, residuals, W, XX: XX - (X * X) / W, x };
}

export const near = (actual: number, expected: number, tolerance = 1e-9) =>
  expect(Math.abs(actual - expected)).toBeLessThan(tolerance * Math.max(1e-3, Math.abs(expected)));
