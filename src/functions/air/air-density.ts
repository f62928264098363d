import { airDensity as densityOf, assumedHumidity, standardPressure } from "../../core/index";
import { inCell } from "../cells/host-error";
import { numbers, optional, sizes, spread } from "../cells/spread";
import { fromMethod, toMethod, unitSystem } from "../cells/units";

/**
 * Density of moist air ρ, kg/m³ (IP: lb/ft³).
 * Equation: ρ = (p − 0.37802·φ·p_sat)/(287.055·T).
 * Source: ISO 9972:2015, air density.
 * @customfunction AIRDENSITY
 * @param temperature Air temperature, °C (IP: °F). 0 is a value.
 * @param [barometric_pressure] Station pressure, Pa (IP: inHg); 101 325 Pa if not given. 0 means blank.
 * @param [relative_humidity] A fraction, 0.5 for 50 %; 0.5 is assumed if not given. 0 is a value: dry air.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The density.
 * @core air/density.ts
 * @check authorities/psychrolib.test.ts authorities/cipm-2007.test.ts authorities/reference-checks.test.ts
 */
export function airDensity(
  temperature: any[][],
  barometric_pressure?: any[][],
  relative_humidity?: any[][],
  units?: string | null,
): any[][] {
  const inputs = {
    temperature: numbers("temperature", temperature),
    pressure: optional(sizes("barometric_pressure", barometric_pressure)),
    humidity: optional(numbers("relative_humidity", relative_humidity)),
  };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ temperature, pressure, humidity = assumedHumidity }) => {
      const air = {
        temperature: toMethod(temperature, "temperature", system),
        pressure: pressure === undefined ? standardPressure : toMethod(pressure, "barometer", system),
        humidity,
      };
      return fromMethod(densityOf(air), "density", system);
    });
  });
}
