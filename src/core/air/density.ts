import type { InsideOutside } from "../direction";
import { ensure, requireWithin, type Term } from "../errors";

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

/** What the temperature and the humidity of a state of air are called. */
type AirTerms = readonly [temperature: Term, humidity: Term];

/** A state of air, each in SI: °C, Pa, and relative humidity as a fraction. */
export interface AirState {
  readonly temperature: number;
  readonly pressure: number;
  readonly humidity: number;
}

/** Kelvin from °C. Errors: outside −60 to 70 °C, where no test is made and a unit slip is likely. */
export function kelvin(temperature: number, term: Term = "temperature"): number {
  requireWithin(temperature, -60, 70, term, "temperature");
  return temperature + zeroCelsius;
}

/** Saturation pressure of water vapour over water, Pa, at a temperature in °C: exp(59.484085 − 6790.4985/T − 5.02802·ln T). ISO 9972:2015. */
export function saturationPressure(temperature: number): number {
  const T = kelvin(temperature);
  return Math.exp(59.484085 - 6790.4985 / T - 5.02802 * Math.log(T));
}

/**
 * Density of moist air, kg/m³: ρ = (p − 0.37802·p_v)/(287.055·T), p_v = φ·p_sat.
 * @param terms What the temperature and the humidity are called in an error.
 * Errors: temperature outside −60…70 °C, pressure outside 50 000…110 000 Pa, humidity outside 0…1.
 * Source: ISO 9972:2015, air density (from memory: check against your own copy).
 * Example: airDensity({ temperature: 20, pressure: 101_325, humidity: 0.5 }) → 1.19884
 */
export function airDensity(
  air: AirState,
  [ofTemperature, ofHumidity]: AirTerms = ["temperature", "relative humidity"],
): number {
  requireWithin(air.pressure, 50_000, 110_000, "barometric pressure", "barometer");
  ensure(air.humidity >= 0 && air.humidity <= 1, ofHumidity, "fraction", { got: air.humidity });
  const T = kelvin(air.temperature, ofTemperature);
  const vapourPressure = air.humidity * saturationPressure(air.temperature);
  return (air.pressure - vapourDeficit * vapourPressure) / (gasConstantOfDryAir * T);
}

/** The temperatures of ASTM E779's formula are whole kelvins: 293 K for 20 °C. */
const wholeZeroCelsius = 273;
const wholeReference = 293;

/**
 * Station pressure over sea-level pressure in ASTM E779's density: (1 − 0.0065·E/293)^5.2553, E in m. Errors: altitude outside −500…5 000 m.
 * Example: relativePressureAtAltitude(1000) → 0.88879
 */
export function relativePressureAtAltitude(altitude: number): number {
  requireWithin(altitude, -500, 5_000, "altitude", "altitude");
  return Math.pow(1 - (0.0065 * altitude) / wholeReference, 5.2553);
}

/**
 * Density of air by ASTM E779's own formula, kg/m³, from temperature (°C) and altitude (m) alone: 1.2041·(1 − 0.0065·E/293)^5.2553·293/(θ + 273).
 * Humidity and the barometer do not count. Errors: temperature outside −60…70 °C, altitude outside −500…5 000 m.
 * Source: ASTM E779-19, air density (from memory: check against your own copy).
 * Example: densityByAltitude(20, 1000) → 1.0702
 */
export function densityByAltitude(temperature: number, altitude: number, term?: Term): number {
  kelvin(temperature, term);
  const relativePressure = relativePressureAtAltitude(altitude);
  return (referenceDensity * relativePressure * wholeReference) / (temperature + wholeZeroCelsius);
}

/** Formulas for the density of air: moist air by temperature, barometer and humidity, or ASTM E779's own by temperature and altitude. */
export const densityFormulas = ["moist air", "ASTM E779"] as const;

/** The air during a test: °C, relative humidity as a fraction, station pressure in Pa. */
export interface TestAir {
  readonly temperature: InsideOutside;
  readonly humidity: InsideOutside;
  readonly barometricPressure: number;
  /** Altitude, m, where ASTM E779's own formula is used instead of moist air; humidity and barometer then do not count. */
  readonly altitudeOfFormula?: number;
}

/**
 * Densities indoors and outdoors, kg/m³. Errors: those of airDensity, naming the side ("indoor temperature").
 * Example: densityOfBoth({ temperature: { indoor: 22, outdoor: -5 }, humidity: { indoor: 0.5, outdoor: 1 }, barometricPressure: 101_325 })
 *   → { indoor: 1.190, outdoor: 1.314 }
 */
export function densityOfBoth({
  temperature,
  humidity,
  barometricPressure,
  altitudeOfFormula,
}: TestAir): InsideOutside {
  const at = (side: keyof InsideOutside): number => {
    const term = `${side} temperature` as const;
    return altitudeOfFormula === undefined
      ? airDensity({ temperature: temperature[side], pressure: barometricPressure, humidity: humidity[side] }, [
          term,
          `${side} humidity`,
        ])
      : densityByAltitude(temperature[side], altitudeOfFormula, term);
  };
  return { indoor: at("indoor"), outdoor: at("outdoor") };
}
