import {
  assumedHumidity,
  densityCorrection as correctionOf,
  densityOfBoth,
  directions,
  standardPressure,
} from "../../core/index";
import { choice } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { numbers, optional, sizes, spread } from "../cells/spread";
import { toMethod, unitSystem } from "../cells/units";

/**
 * Factor that converts the flow at the fan to the flow through the envelope.
 * Equation: factor = ρ_i/ρ_e depressurizing, ρ_e/ρ_i pressurizing.
 * Source: ISO 9972:2015, air leakage rate; ASTM E779.
 * @customfunction DENSITYCORRECTION
 * @param direction "depressurization" or "pressurization".
 * @param indoor_temperature Indoor air, °C (IP: °F). 0 is a value.
 * @param outdoor_temperature Outdoor air, °C (IP: °F). 0 is a value.
 * @param [barometric_pressure] Station pressure, Pa (IP: inHg); 101 325 Pa if not given. 0 means blank.
 * @param [indoor_humidity] Relative humidity indoors, a fraction; 0.5 is assumed if not given. 0 is a value.
 * @param [outdoor_humidity] Relative humidity outdoors, a fraction; 0.5 is assumed if not given. 0 is a value.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The factor.
 * @core air/viscosity.ts air/density.ts
 * @check authorities/random-steps.test.ts authorities/steps-against-whole.test.ts
 */
export function densityCorrection(
  direction: string,
  indoor_temperature: any[][],
  outdoor_temperature: any[][],
  barometric_pressure?: any[][],
  indoor_humidity?: any[][],
  outdoor_humidity?: any[][],
  units?: string | null,
): any[][] {
  const inputs = {
    indoor: numbers("indoor_temperature", indoor_temperature),
    outdoor: numbers("outdoor_temperature", outdoor_temperature),
    pressure: optional(sizes("barometric_pressure", barometric_pressure)),
    indoorHumidity: optional(numbers("indoor_humidity", indoor_humidity)),
    outdoorHumidity: optional(numbers("outdoor_humidity", outdoor_humidity)),
  };
  return inCell(() => {
    const way = choice(direction, directions, "direction");
    const system = unitSystem(units);
    return spread(inputs, ({ indoor, outdoor, pressure, indoorHumidity, outdoorHumidity }) =>
      correctionOf(
        way,
        densityOfBoth({
          temperature: {
            indoor: toMethod(indoor, "temperature", system),
            outdoor: toMethod(outdoor, "temperature", system),
          },
          humidity: { indoor: indoorHumidity ?? assumedHumidity, outdoor: outdoorHumidity ?? assumedHumidity },
          barometricPressure: pressure === undefined ? standardPressure : toMethod(pressure, "barometer", system),
        }),
      ),
    );
  });
}
