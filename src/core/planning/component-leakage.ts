import { requireNotNegative, requirePositive } from "../errors";
import { requireExponent } from "../leakage/curve";
import { leakageAreaPerFlow, type LeakageAreaTerms } from "../results/leakage-area";

/** Exponent by which EN 12207 turns the leakage of windows and doors from one pressure to another: 2/3 (from memory: check against your own copy). */
export const componentExponent = 2 / 3;

/** Components of one kind in a building. */
export interface Component {
  /** Number, length or area, in the unit in which the leakage is given. */
  readonly amount: number;
  /** Flow per unit of amount at the rated pressure. */
  readonly leakage: number;
  /** Pa */
  readonly ratedPressure: number;
  readonly exponent: number;
  /** Row on the sheet, counted from 1. */
  readonly row: number;
}

/**
 * Flow through all components at one pressure, in the unit of flow of their leakages: Σ amount·leakage·(p/p_rated)^n.
 * Errors: an amount below 0, a leakage or pressure not above 0, an exponent outside 0.4 to 1.1.
 * Source: EN 12207:2016 for the conversion between pressures; addition is arithmetic.
 * Example: componentLeakage([{ amount: 1, leakage: 27, ratedPressure: 100, exponent: componentExponent, row: 1 }], 50) → 17.0
 */
export function componentLeakage(components: readonly Component[], at: number): number {
  requirePositive(at, "at");
  return components.reduce((sum, { amount, leakage, ratedPressure, exponent, row }) => {
    requireNotNegative(amount, "amounts", row);
    requirePositive(leakage, "leakages", row);
    requirePositive(ratedPressure, "rated pressures", row);
    requireExponent(exponent, "exponents", row);
    return sum + amount * leakage * Math.pow(at / ratedPressure, exponent);
  }, 0);
}

/**
 * Flow, m³/h, of a leakage area, m², at a pressure: 3600·C_d·A·√(2·p_d/ρ0) at the pressure p_d of the area's definition, times (p/p_d)^n.
 * Errors: area or pressure not above 0, an exponent outside 0.4 to 1.1.
 * Source: ISO 9972:2015, ASTM E779, ASHRAE Handbook—Fundamentals 2021 ch. 16, turned round.
 * Example: areaFlow(0.0056, leakageAreaTerms["effective 4 Pa"], 0.65, 50) → 268.3
 */
export function areaFlow(area: number, terms: LeakageAreaTerms, exponent: number, at: number): number {
  requirePositive(area, "area");
  requirePositive(at, "at");
  requireExponent(exponent, "exponent");
  return (area / leakageAreaPerFlow(terms)) * Math.pow(at / terms.pressure, exponent);
}
