import type { InsideOutside } from "../direction";
import { MethodError } from "../errors";
import { airDensity } from "./density";
import { densityByAltitude } from "./density-by-altitude";

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

/** How the tester's words for one side differ from those of airDensity. */
const ofOneSide: Record<string, string> = { temperature: "temperature", relative_humidity: "humidity" };

/** Densities indoors and outdoors, kg/m³. Errors: those of airDensity, naming the side ("indoor_temperature"). */
export function densityOfBoth({
  temperature,
  humidity,
  barometricPressure,
  altitudeOfFormula,
}: TestAir): InsideOutside {
  const at = (side: keyof InsideOutside): number => {
    try {
      return altitudeOfFormula === undefined
        ? airDensity({ temperature: temperature[side], pressure: barometricPressure, humidity: humidity[side] })
        : densityByAltitude(temperature[side], altitudeOfFormula);
    } catch (error) {
      if (!(error instanceof MethodError)) throw error;
      const name = ofOneSide[error.argument];
      throw name === undefined ? error : new MethodError(error.kind, `${side}_${name}`, error.rule);
    }
  };
  return { indoor: at("indoor"), outdoor: at("outdoor") };
}
