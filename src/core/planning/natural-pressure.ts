import { airDensity, kelvin, referenceDensity, standardPressure } from "../air/density";
import type { InsideOutside } from "../direction";
import { requirePositive, requireWithin } from "../errors";

/** Standard acceleration of free fall, 9.80665 m/s² exactly. BIPM, 3rd CGPM 1901; NIST SP 811 (2008), appendix B. */
export const freeFall = 9.80665;

/** Where the stack pressure is wanted; heights in m above the lowest leak. */
export interface StackHeights {
  /** Height of the heated building between its lowest and its highest leak. */
  readonly height: number;
  /** Height at which the pressure is measured; 0 is the ground. */
  readonly measuring?: number | undefined;
  /** Height at which indoors and outdoors have the same pressure; half the height where the leaks are spread evenly. */
  readonly neutral?: number | undefined;
}

/**
 * Pressure difference that the temperatures make in still air, Pa, indoors minus outdoors: ρ_e·g·(z − z_neutral)·(T_i − T_e)/T_i; in winter negative below the neutral height.
 * The air is taken as dry, at 101 325 Pa; at altitude the pressure is lower in the ratio of the barometers.
 * @param temperature °C
 * Errors: height not above 0, measuring height outside the building, neutral height more than a height away from it, temperatures outside −60…70 °C.
 * Source: hydrostatics; ASHRAE Handbook—Fundamentals 2021 ch. 16, stack pressure.
 */
export function stackPressure(
  { height, measuring = 0, neutral = height / 2 }: StackHeights,
  temperature: InsideOutside,
): number {
  requirePositive(height, "height");
  requireWithin(measuring, 0, height, "measuring_height", "between the ground and the height");
  requireWithin(neutral, -height, 2 * height, "neutral_height", "not further from the building than its height");
  const indoor = kelvin(temperature.indoor, "indoor_temperature");
  const outdoor = kelvin(temperature.outdoor, "outdoor_temperature");
  const density = airDensity({ temperature: temperature.outdoor, pressure: standardPressure, humidity: 0 });
  return (density * freeFall * (measuring - neutral) * (indoor - outdoor)) / indoor;
}

/**
 * Stagnation pressure of the wind, Pa: ½·ρ0·U² with the density of the reference conditions, 1.2041 kg/m³. What a façade feels is a fraction of it, on the lee side negative.
 * Errors: speed, m/s, outside 0…100.
 * Source: Bernoulli; ASHRAE Handbook—Fundamentals 2021 ch. 24, wind pressure.
 */
export function windPressure(speed: number): number {
  requireWithin(speed, 0, 100, "speed", "between 0 and 100 m/s");
  return (referenceDensity * speed ** 2) / 2;
}
