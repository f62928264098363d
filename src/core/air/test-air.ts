import type { InsideOutside } from "../direction";
import { MethodError } from "../errors";
import { airDensity } from "./density";

/** The air during a test: °C, relative humidity as a fraction, station pressure in Pa. */
export interface TestAir {
  readonly temperature: InsideOutside;
  readonly humidity: InsideOutside;
  readonly barometricPressure: number;
}

/** How the tester's words for one side differ from those of airDensity. */
const ofOneSide: Record<string, string> = { temperature: "temperature", relative_humidity: "humidity" };

/** Densities indoors and outdoors, kg/m³. Errors: those of airDensity, naming the side ("indoor_temperature"). */
export function densityOfBoth({ temperature, humidity, barometricPressure }: TestAir): InsideOutside {
  const at = (side: keyof InsideOutside): number => {
    try {
      return airDensity({ temperature: temperature[side], pressure: barometricPressure, humidity: humidity[side] });
    } catch (error) {
      if (!(error instanceof MethodError)) throw error;
      const name = ofOneSide[error.argument];
      throw name === undefined ? error : new MethodError(error.kind, `${side}_${name}`, error.rule);
    }
  };
  return { indoor: at("indoor"), outdoor: at("outdoor") };
}
