import type { Scalar } from "../values/value";
import { errors, finite } from "../values/value";
import { sum } from "./aggregate";

/** The arithmetic mean; of nothing it is NaN. */
export const mean = (numbers: readonly number[]): number => sum(numbers) / numbers.length;

/** The sum of squared (or higher) deviations from the mean, centred first. */
export function centredSum(numbers: readonly number[], power = 2): number {
  const centre = mean(numbers);
  return numbers.reduce((total, number) => total + (number - centre) ** power, 0);
}

/** The sum of products of deviations of pairs. */
export function centredProducts(x: readonly number[], y: readonly number[]): number {
  const centreX = mean(x);
  const centreY = mean(y);
  return x.reduce((total, value, place) => total + (value - centreX) * ((y[place] ?? 0) - centreY), 0);
}

/** Variance with n − lost degrees of freedom; too few numbers are #DIV/0!. */
export function variance(numbers: readonly number[], lost: 0 | 1): Scalar {
  const freedom = numbers.length - lost;
  return freedom > 0 ? finite(centredSum(numbers) / freedom) : errors.division;
}

export function deviation(numbers: readonly number[], lost: 0 | 1): Scalar {
  const square = variance(numbers, lost);
  return typeof square === "number" ? Math.sqrt(square) : square;
}
