import { stackPressure as stackOf } from "../../core/index";
import { inCell } from "../cells/host-error";
import { numbers, optional, sizes, spread } from "../cells/spread";
import { toMethod, unitSystem } from "../cells/units";

/**
 * Stack pressure Δp from height and temperatures, Pa, indoors minus outdoors; in winter it is negative below the
 * neutral height. It is the baseline to expect in calm weather. At 101 325 Pa; 8 m at 20 and 0 °C give −3.5 Pa at the
 * ground. If no humidity is given the air is taken as dry, which gives 3 % less for a humid house in winter.
 * Equation: Δp = (ρ_e − ρ_i)·g·(z − z_neutral); for dry air ρ_e·g·(z − z_neutral)·(T_i − T_e)/T_i.
 * Source: ASHRAE Handbook—Fundamentals 2021 ch. 16, stack pressure; hydrostatics.
 * @customfunction STACKPRESSURE
 * @param height Height of the heated building, m (IP: ft). 0 means blank.
 * @param indoor_temperature Indoor air, °C (IP: °F). 0 is a value.
 * @param outdoor_temperature Outdoor air, °C (IP: °F). 0 is a value.
 * @param [measuring_height] Height above the ground at which the pressure is measured, m (IP: ft); at the ground if not given. 0 is a value.
 * @param [neutral_height] Height at which indoors and outdoors are equal, m (IP: ft); half the height if not given. 0 is a value: pass blanks as "".
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @param [indoor_humidity] Relative humidity indoors, a fraction; dry air if not given. 0 is a value.
 * @param [outdoor_humidity] Relative humidity outdoors, a fraction; dry air if not given. 0 is a value.
 * @returns The pressure, Pa.
 * @core planning/natural-pressure.ts
 * @check authorities/planning-figures.test.ts authorities/dm4bem.test.ts
 */
export function stackPressure(
  height: any[][],
  indoor_temperature: any[][],
  outdoor_temperature: any[][],
  measuring_height?: any[][],
  neutral_height?: any[][],
  units?: string | null,
  indoor_humidity?: any[][],
  outdoor_humidity?: any[][],
): any[][] {
  const inputs = {
    height: sizes("height", height),
    indoor: numbers("indoor_temperature", indoor_temperature),
    outdoor: numbers("outdoor_temperature", outdoor_temperature),
    measuring: optional(numbers("measuring_height", measuring_height)),
    neutral: optional(numbers("neutral_height", neutral_height)),
    indoorHumidity: optional(numbers("indoor_humidity", indoor_humidity)),
    outdoorHumidity: optional(numbers("outdoor_humidity", outdoor_humidity)),
  };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ height, indoor, outdoor, measuring, neutral, indoorHumidity, outdoorHumidity }) => {
      const heights = {
        height: toMethod(height, "length", system),
        measuring: toMethod(measuring, "length", system),
        neutral: toMethod(neutral, "length", system),
      };
      const degrees = (value: number) => toMethod(value, "temperature", system);
      const humidity = { indoor: indoorHumidity ?? 0, outdoor: outdoorHumidity ?? 0 };
      return stackOf(heights, { indoor: degrees(indoor), outdoor: degrees(outdoor) }, humidity);
    });
  });
}
