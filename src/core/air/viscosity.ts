import { airAtDevice, airAtLeaks, type Direction, type InsideOutside } from "../direction";
import { kelvin } from "./density";

/**
 * Dynamic viscosity of air, Pa·s, at a temperature in °C, by Sutherland: μ = 1.458e-6·T^1.5/(T + 110.4). US Standard Atmosphere 1976, eqn. 51.
 * Example: airViscosity(20) → 1.8134e-5
 */
export function airViscosity(temperature: number): number {
  const T = kelvin(temperature);
  return (1.458e-6 * Math.pow(T, 1.5)) / (T + 110.4);
}

/** Viscosity at the reference temperature of 20 °C, Pa·s: 1.8134e-5. */
export const referenceViscosity = airViscosity(20);

/**
 * Factor from the flow at the fan to the flow through the envelope, by mass balance: ρ_i/ρ_e depressurizing, ρ_e/ρ_i pressurizing.
 * Source: ISO 9972:2015, calculation of the air leakage rate; ASTM E779.
 * Example: densityCorrection("depressurization", { indoor: 1.2, outdoor: 1.3 }) → 0.9231
 */
export function densityCorrection(direction: Direction, density: InsideOutside): number {
  return airAtDevice(direction, density) / airAtLeaks(direction, density);
}
