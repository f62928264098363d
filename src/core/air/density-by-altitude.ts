import { ensure } from "../errors";
import { kelvin, referenceDensity } from "./density";

/** The temperatures of ASTM E779's formula are whole kelvins: 293 K for 20 °C. */
const wholeZeroCelsius = 273;
const wholeReference = 293;

/** Station pressure over sea-level pressure in ASTM E779's density: (1 − 0.0065·E/293)^5.2553, E in m. Errors: altitude outside −500…5 000 m. */
export function relativePressureAtAltitude(altitude: number): number {
  ensure(altitude >= -500 && altitude <= 5_000, "altitude", "between −500 and 5 000 m; did you type feet?");
  return Math.pow(1 - (0.0065 * altitude) / wholeReference, 5.2553);
}

/**
 * Density of air by ASTM E779's own formula, kg/m³, from temperature (°C) and altitude (m) alone: 1.2041·(1 − 0.0065·E/293)^5.2553·293/(θ + 273).
 * Humidity and the barometer do not count. Errors: temperature outside −60…70 °C, altitude outside −500…5 000 m.
 * Source: ASTM E779-19, air density (from memory: check against your own copy).
 */
export function densityByAltitude(temperature: number, altitude: number): number {
  kelvin(temperature);
  const relativePressure = relativePressureAtAltitude(altitude);
  return (referenceDensity * relativePressure * wholeReference) / (temperature + wholeZeroCelsius);
}
