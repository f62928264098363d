import { ensure, requirePositive } from "../errors";

/** Errors: an exponent outside 0 to 1.5; leaks lie between 0.5 and 1 (common practice, no source, for what lies beyond). */
export function requireExponent(exponent: number): void {
  ensure(
    exponent > 0 && exponent <= 1.5,
    "exponent",
    () => `above 0 and not more than 1.5, usually 0.5 to 1 (got ${exponent})`,
  );
}

/** The leakage curve q = C·Δp^n; q in the unit of C. Errors: C or Δp not above 0, n outside its range. Source: ISO 9972:2015; ASTM E779. */
export function leakageFlow(coefficient: number, exponent: number, pressure: number): number {
  requirePositive(coefficient, "coefficient");
  requirePositive(pressure, "pressure");
  requireExponent(exponent);
  return coefficient * Math.pow(pressure, exponent);
}
