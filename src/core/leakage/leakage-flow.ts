import { requirePositive } from "../errors";
import { requireFittedExponent } from "./exponent";

/** The leakage curve q = C·Δp^n; q in the unit of C. Errors: C or Δp not above 0, n outside what readings can give. Source: ISO 9972:2015; ASTM E779. */
export function leakageFlow(coefficient: number, exponent: number, pressure: number): number {
  requirePositive(coefficient, "coefficient");
  requirePositive(pressure, "pressure");
  requireFittedExponent(exponent);
  return coefficient * Math.pow(pressure, exponent);
}
