import { referenceDensity } from "../air/density";
import { airViscosity, referenceViscosity } from "../air/viscosity";
import type { Conditions } from "./curve";
import { airAtLeaks, type Direction, type InsideOutside } from "../direction";

/** Standards whose reference conditions are known here. */
export const standards = ["ISO 9972", "ASTM E779"] as const;

export type Standard = (typeof standards)[number];

/** What the standards' profiles say about the reference conditions; a profile is data, not a code path. */
export const correctsViscosity: Record<Standard, boolean> = { "ISO 9972": false, "ASTM E779": true };

/**
 * What turns a leakage curve at test conditions to reference conditions (20 °C, 101 325 Pa, dry): C is multiplied by (ρ/ρ0)^(1−n), by ASTM E779 also by
 * (μ/μ0)^(2n−1), which is factor·pressureFactor^n with factor = (ρ/ρ0)/(μ/μ0) and pressureFactor = (μ/μ0)²/(ρ/ρ0). ρ and μ are those of
 * the air that goes through the leaks: outdoor air depressurizing, indoor air pressurizing.
 * @param density kg/m³
 * @param temperature °C
 * Source: ISO 9972:2015, C_L; ASTM E779-19, C0 (both from memory: check against your own copy).
 */
export function referenceConditions(
  standard: Standard,
  direction: Direction,
  density: InsideOutside,
  temperature: InsideOutside,
): Conditions {
  const relativeDensity = airAtLeaks(direction, density) / referenceDensity;
  const relativeViscosity = correctsViscosity[standard]
    ? airViscosity(airAtLeaks(direction, temperature)) / referenceViscosity
    : 1;
  return { factor: relativeDensity / relativeViscosity, pressureFactor: relativeViscosity ** 2 / relativeDensity };
}

/** C at reference conditions from C and n at test conditions. */
export function referenceCoefficient(coefficient: number, exponent: number, conditions: Conditions): number {
  return coefficient * conditions.factor * Math.pow(conditions.pressureFactor, exponent);
}
