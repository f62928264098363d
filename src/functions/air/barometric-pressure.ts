import { barometricPressure as pressureAt, standardPressure } from "../../core/index";
import { inCell } from "../cells/host-error";
import { numbers, optional, sizes, spread } from "../cells/spread";
import { fromMethod, toMethod, unitSystem } from "../cells/units";

/**
 * Barometric pressure at an altitude, Pa (IP: inHg). Use it when no barometer was read.
 * Equation: p = p0·(1 − 2.25577e-5·Z)^5.2559.
 * Source: ASHRAE Handbook—Fundamentals 2021 ch. 1 eqn. 3; US Standard Atmosphere 1976.
 * @customfunction BAROMETRICPRESSURE
 * @param altitude Altitude above sea level, m (IP: ft). 0 is a value.
 * @param [sea_level_pressure] A weather report's pressure reduced to sea level, Pa (IP: inHg); 101 325 Pa if not given. 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The station pressure.
 * @core air/barometric-pressure.ts
 * @check authorities/standard-atmosphere.test.ts authorities/psychrolib.test.ts
 */
export function barometricPressure(altitude: any[][], sea_level_pressure?: any[][], units?: string | null): any[][] {
  const inputs = {
    altitude: numbers("altitude", altitude),
    seaLevel: optional(sizes("sea_level_pressure", sea_level_pressure)),
  };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ altitude, seaLevel }) => {
      const from = seaLevel === undefined ? standardPressure : toMethod(seaLevel, "barometer", system);
      return fromMethod(pressureAt(toMethod(altitude, "length", system), from), "barometer", system);
    });
  });
}
