import { requirePositive } from "../errors";
import { requireExponent } from "../leakage/exponent";
import { leakageAreaPerFlow, type LeakageAreaTerms } from "../results/leakage-area";

/**
 * Flow, m³/h, of a leakage area, m², at a pressure: 3600·C_d·A·√(2·p_d/ρ0) at the pressure p_d of the area's definition, times (p/p_d)^n.
 * Errors: area or pressure not above 0, an exponent outside 0.4 to 1.1.
 * Source: ISO 9972:2015, ASTM E779, ASHRAE Handbook—Fundamentals 2021 ch. 16, turned round.
 */
export function areaFlow(area: number, terms: LeakageAreaTerms, exponent: number, at: number): number {
  requirePositive(area, "area");
  requirePositive(at, "at");
  requireExponent(exponent, "exponent");
  return (area / leakageAreaPerFlow(terms)) * Math.pow(at / terms.pressure, exponent);
}
