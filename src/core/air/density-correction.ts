import { airAtDevice, airAtLeaks, type Direction, type InsideOutside } from "../direction";

/**
 * Factor from the flow at the fan to the flow through the envelope, by mass balance: ρ_i/ρ_e depressurizing, ρ_e/ρ_i pressurizing.
 * Source: ISO 9972:2015, calculation of the air leakage rate; ASTM E779.
 */
export function densityCorrection(direction: Direction, density: InsideOutside): number {
  return airAtDevice(direction, density) / airAtLeaks(direction, density);
}
