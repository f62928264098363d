import DecimalLibrary from "decimal.js";

/** Numbers of fifty significant digits, so that no rounding of the reference reaches the sixteenth digit of a double. */
export const Decimal = DecimalLibrary.clone({ precision: 50, rounding: DecimalLibrary.ROUND_HALF_EVEN });
export type Exact = DecimalLibrary;

/**
 * The value that a double really holds: 0.1 is 0.1000000000000000055…, and it is that which the code under test receives.
 * A string is taken as the decimal number it spells, for constants of a standard.
 */
export function exact(value: number | string | Exact): Exact {
  return new Decimal(typeof value === "number" ? value.toPrecision(60) : value);
}

export function sum(values: readonly Exact[]): Exact {
  return values.reduce((total, value) => total.plus(value), exact(0));
}

export function mean(values: readonly Exact[]): Exact {
  if (values.length === 0) throw new Error("the mean of nothing");
  return sum(values).dividedBy(values.length);
}

/** The values of a list by position, checked: a missing one is a mistake of the reference, not a number. */
export function at<T>(values: readonly T[], index: number): T {
  const value = values[index];
  if (value === undefined) throw new Error(`no value at ${index}`);
  return value;
}
