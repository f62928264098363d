import { kelvin } from "./density";

/** Dynamic viscosity of air, Pa·s, at a temperature in °C, by Sutherland: μ = 1.458e-6·T^1.5/(T + 110.4). US Standard Atmosphere 1976, eqn. 51. */
export function airViscosity(temperature: number): number {
  const T = kelvin(temperature);
  return (1.458e-6 * Math.pow(T, 1.5)) / (T + 110.4);
}

/** Viscosity at the reference temperature of 20 °C, Pa·s: 1.8134e-5. */
export const referenceViscosity = airViscosity(20);
