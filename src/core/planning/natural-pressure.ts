import { freeFall } from "../constants";
import { densityOfBoth, referenceDensity, standardPressure } from "../air/density";
import type { InsideOutside } from "../direction";
import { requirePositive, requireWithin } from "../errors";

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
 * Pressure difference that the weight of the air makes in calm weather, Pa, indoors minus outdoors: (ρ_e − ρ_i)·g·(z − z_neutral); in winter negative below the neutral height.
 * For dry air this is ρ_e·g·(z − z_neutral)·(T_i − T_e)/T_i. Moisture indoors makes the air lighter: 3 % more at 22 °C and 50 % against −5 °C.
 * The barometer is taken as 101 325 Pa; at altitude the pressure difference is lower in the ratio of the barometers.
 * @param temperature °C
 * @param humidity Relative, fractions; dry air where not given.
 * Errors: height not above 0, measuring height outside the building, neutral height more than a height away from it, temperatures outside −60…70 °C, humidities outside 0…1.
 * Source: hydrostatics; ASHRAE Handbook—Fundamentals 2021 ch. 16, stack pressure.
 * Example: stackPressure({ height: 8 }, { indoor: 20, outdoor: 0 }) → -3.46
 */
export function stackPressure(
  { height, measuring = 0, neutral = height / 2 }: StackHeights,
  temperature: InsideOutside,
  humidity: InsideOutside = { indoor: 0, outdoor: 0 },
): number {
  requirePositive(height, "height");
  requireWithin(measuring, 0, height, "measuring height", "measuringHeight");
  requireWithin(neutral, -height, 2 * height, "neutral height", "neutralHeight");
  const density = densityOfBoth({ temperature, humidity, barometricPressure: standardPressure });
  return (density.outdoor - density.indoor) * freeFall * (measuring - neutral);
}

/**
 * Stagnation pressure of the wind, Pa: ½·ρ0·U² with the density of the reference conditions, 1.2041 kg/m³. A façade sees a fraction of it, negative on the leeward side.
 * Errors: speed, m/s, outside 0…100.
 * Source: Bernoulli; ASHRAE Handbook—Fundamentals 2021 ch. 24, wind pressure.
 * Example: windPressure(6) → 21.67
 */
export function windPressure(speed: number): number {
  requireWithin(speed, 0, 100, "speed", "windSpeed");
  return (referenceDensity * speed ** 2) / 2;
}
