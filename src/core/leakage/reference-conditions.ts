import { referenceDensity } from "../air/density";
import { airViscosity, referenceViscosity } from "../air/viscosity";
import { airAtLeaks, type Direction, type InsideOutside } from "../direction";

/** Standards whose reference conditions are known here. */
export const standards = ["ISO 9972", "ASTM E779"] as const;

export type Standard = (typeof standards)[number];

/** What the standards' profiles say about the reference conditions; a profile is data, not a code path. */
const correctsViscosity: Record<Standard, boolean> = { "ISO 9972": false, "ASTM E779": true };

/**
 * Factor from C at test conditions to C at reference conditions (20 °C, 101 325 Pa, dry): (ρ/ρ0)^(1−n), by ASTM E779 also (μ/μ0)^(2n−1). ρ and μ are those of
 * the air that goes through the leaks: outdoor air depressurizing, indoor air pressurizing.
 * @param density kg/m³
 * @param temperature °C
 * Source: ISO 9972:2015, C_L; ASTM E779-19, C0 (both from memory: check against your own copy).
 */
export function referenceFactor(
  standard: Standard,
  direction: Direction,
  exponent: number,
  density: InsideOutside,
  temperature: InsideOutside,
): number {
  const forDensity = Math.pow(airAtLeaks(direction, density) / referenceDensity, 1 - exponent);
  if (!correctsViscosity[standard]) return forDensity;
  const viscosity = airViscosity(airAtLeaks(direction, temperature));
  return forDensity * Math.pow(viscosity / referenceViscosity, 2 * exponent - 1);
}
