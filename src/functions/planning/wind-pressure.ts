import { windPressure as windOf } from "../../core/index";
import { inCell } from "../cells/host-error";
import { numbers, spread } from "../cells/spread";
import { toMethod, unitSystem } from "../cells/units";

/**
 * Stagnation pressure of the wind, Pa, for air of 1.2041 kg/m³. A façade sees a fraction of it (its pressure
 * coefficient), negative on the leeward side.
 * Equation: p = ½·ρ·U².
 * Source: ASHRAE Handbook—Fundamentals 2021 ch. 24, wind pressure; Bernoulli.
 * @customfunction WINDPRESSURE
 * @param speed Wind speed, m/s (IP: mph). 0 is a value: pass blanks as "".
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The pressure, Pa.
 * @core planning/natural-pressure.ts
 * @check authorities/planning-figures.test.ts
 */
export function windPressure(speed: any[][], units?: string | null): any[][] {
  const inputs = { speed: numbers("speed", speed) };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ speed }) => windOf(toMethod(speed, "speed", system)));
  });
}
