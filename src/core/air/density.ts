import { requireWithin } from "../errors";

/** Zero of the Celsius scale, 273.15 K exactly. BIPM SI brochure, 9th edition, 2.3.1. */
export const zeroCelsius = 273.15;

/** Standard atmospheric pressure, 101 325 Pa exactly. US Standard Atmosphere 1976; ISO 9972:2015 clause 3 (from memory). */
export const standardPressure = 101_325;

/** Density of air at the reference conditions, 1.2041 kg/m³: 20 °C, 101 325 Pa, dry. ISO 9972:2015 (from memory); recomputed 1.20410. */
export const referenceDensity = 1.2041;

/** Specific gas constant of dry air, 287.055 J/(kg·K). ISO 9972:2015, air density (from memory). */
const gasConstantOfDryAir = 287.055;

/** 1 − (gas constant of dry air / gas constant of water vapour) = 0.37802. ISO 9972:2015, air density (from memory). */
export const vapourDeficit = 0.37802;

/** Relative humidity that ISO 9972 lets a tester assume where it was not measured: 0.5. */
export const assumedHumidity = 0.5;

/** A state of air, each in SI: °C, Pa, and relative humidity as a fraction. */
export interface AirState {
  readonly temperature: number;
  readonly pressure: number;
  readonly humidity: number;
}

/** Kelvin from °C. Errors: outside −60 to 70 °C, where no test is made and a unit slip is likely. */
export function kelvin(temperature: number, argument = "temperature"): number {
  requireWithin(temperature, -60, 70, argument, "a temperature between −60 and 70 °C; did you type °F or K?");
  return temperature + zeroCelsius;
}

/** Saturation pressure of water vapour over water, Pa, at a temperature in °C: exp(59.484085 − 6790.4985/T − 5.02802·ln T). ISO 9972:2015. */
export function saturationPressure(temperature: number): number {
  const T = kelvin(temperature);
  return Math.exp(59.484085 - 6790.4985 / T - 5.02802 * Math.log(T));
}

/**
 * Density of moist air, kg/m³: ρ = (p − 0.37802·p_v)/(287.055·T), p_v = φ·p_sat.
 * Errors: temperature outside −60…70 °C, pressure outside 50 000…110 000 Pa, humidity outside 0…1.
 * Source: ISO 9972:2015, air density (from memory: check against your own copy).
 */
export function airDensity(air: AirState): number {
  requireWithin(
    air.pressure,
    50_000,
    110_000,
    "barometric_pressure",
    "between 50 000 and 110 000 Pa; did you type hPa?",
  );
  requireWithin(air.humidity, 0, 1, "relative_humidity", "a fraction between 0 and 1, 0.5 for 50 %");
  const vapourPressure = air.humidity * saturationPressure(air.temperature);
  return (air.pressure - vapourDeficit * vapourPressure) / (gasConstantOfDryAir * kelvin(air.temperature));
}
