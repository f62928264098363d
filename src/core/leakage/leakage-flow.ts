import { requirePositive } from "../errors";

/** The leakage curve q = C·Δp^n; q in the unit of C. Errors: C or Δp not above 0. Source: ISO 9972:2015; ASTM E779. */
export function leakageFlow(coefficient: number, exponent: number, pressure: number): number {
  requirePositive(coefficient, "coefficient");
  requirePositive(pressure, "pressure");
  return coefficient * Math.pow(pressure, exponent);
}
