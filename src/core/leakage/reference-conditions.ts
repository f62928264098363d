import { requirePositive } from "../errors";
import { type Conditions, requireFittedExponent } from "./curve";
import { referenceDensity } from "../air/density";
import { airViscosity, referenceViscosity } from "../air/viscosity";
import { airAtLeaks, type Direction, type InsideOutside } from "../direction";
import { profiles, standards, type Standard } from "../standards/profiles";

export type { Standard };

/** Which standards' corrections count the viscosity besides the density, read from their profiles. */
export const correctsViscosity = Object.fromEntries(
  standards.map((standard) => [standard, profiles[standard].correction.value === "density and viscosity"]),
) as Record<Standard, boolean>;

/**
 * What turns a leakage curve at test conditions to reference conditions (20 °C, 101 325 Pa, dry): C is multiplied by (ρ/ρ0)^(1−n), where the standard's profile
 * says so (ASTM E779) also by (μ/μ0)^(2n−1), which is factor·pressureFactor^n with factor = (ρ/ρ0)/(μ/μ0) and pressureFactor = (μ/μ0)²/(ρ/ρ0). ρ and μ are those of
 * the air that goes through the leaks: outdoor air depressurizing, indoor air pressurizing.
 * @param density kg/m³
 * @param temperature °C
 * Source: ISO 9972:2015, C_L; ASTM E779-19, C0 (both from memory: check against your own copy).
 * Example: referenceConditions("ISO 9972", "depressurization", { indoor: 1.2, outdoor: 1.29 }, { indoor: 20, outdoor: 0 })
 *   → { factor: 1.0713, pressureFactor: 0.9334 }
 * Example: referenceConditions("ASTM E779", "depressurization", { indoor: 1.2, outdoor: 1.29 }, { indoor: 20, outdoor: 0 })
 *   → { factor: 1.1321, pressureFactor: 0.8359 }
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

/**
 * C at reference conditions from C and n at test conditions. Errors: C not above 0; n outside what a leakage curve can have.
 * Example: referenceCoefficient(50, 0.65, { factor: 1.0713, pressureFactor: 0.9334 }) → 51.22
 */
export function referenceCoefficient(coefficient: number, exponent: number, conditions: Conditions): number {
  requirePositive(coefficient, "coefficient");
  requireFittedExponent(exponent);
  return coefficient * conditions.factor * Math.pow(conditions.pressureFactor, exponent);
}
