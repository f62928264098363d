/** Air on both sides of the envelope: °C, relative humidity as a fraction; one barometer, Pa. */
export interface Climate {
  readonly indoorTemperature: number;
  readonly outdoorTemperature: number;
  readonly indoorHumidity: number;
  readonly outdoorHumidity: number;
  readonly barometer: number;
}

/** Density at the reference conditions of ISO 9972, 20 °C, 101 325 Pa, dry, kg/m³: what C_L refers to. */
export const referenceDensity = 1.2041;

/**
 * Density of moist air, kg/m³, as the sum of its dry part and its vapour, each an ideal gas: p_dry/(R_d·T) + p_v/(R_v·T), R_v = R_d/(1 − 0.37802).
 * Source: the constants and the saturation pressure are those of ISO 9972:2015 (from memory: check against your own copy).
 */
function densityOf(temperature: number, humidity: number, barometer: number): number {
  const kelvin = temperature + 273.15;
  const saturation = Math.exp(59.484085 - 6790.4985 / kelvin) / kelvin ** 5.02802;
  const vapour = humidity * saturation;
  const ofDryAir = 287.055;
  const ofVapour = ofDryAir / (1 - 0.37802);
  return ((barometer - vapour) / ofDryAir + vapour / ofVapour) / kelvin;
}

/** The fan blows out of the house or into it. */
export type Direction = "depressurization" | "pressurization";

/** Densities of the air that passes the leaks and of the air that passes the fan, kg/m³, and of the outdoor air. */
export interface Densities {
  readonly leaks: number;
  readonly fan: number;
  readonly outdoors: number;
}

/** Depressurizing, outdoor air comes in through the leaks and indoor air leaves through the fan; pressurizing, the other way round. */
export function densitiesIn(climate: Climate, direction: Direction): Densities {
  const indoors = densityOf(climate.indoorTemperature, climate.indoorHumidity, climate.barometer);
  const outdoors = densityOf(climate.outdoorTemperature, climate.outdoorHumidity, climate.barometer);
  return direction === "depressurization"
    ? { leaks: outdoors, fan: indoors, outdoors }
    : { leaks: indoors, fan: outdoors, outdoors };
}
