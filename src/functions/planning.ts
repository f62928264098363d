import {
  baselinePressure,
  directions,
  pressureStations as stationsOf,
  stackPressure as stackOf,
  windPressure as windOf,
} from "../core/index";
import { numbersIn, oneOf } from "./cells/cells";
import { finiteRow } from "./cells/finite";
import { inCell } from "./cells/host-error";
import { numbers, optional, sizes, spread } from "./cells/spread";
import { oneNumber } from "./cells/single";
import { toMethod, unitSystem } from "./cells/units";

/**
 * Pressures to set in a test, a row a station, in equal steps from the highest to the lowest: induced pressure Δp, and what the gauge then shows, Δp plus the baseline, Pa.
 * Depressurization is negative, indoors minus outdoors; without a direction the pressures are magnitudes.
 * Equation: Δp_k = Δp_high − k·(Δp_high − Δp_low)/(count − 1); gauge = Δp_k + Δp0.
 * Source: ISO 9972:2015, induced pressure difference; equal steps are common practice.
 * @customfunction PRESSURESTATIONS
 * @param lowest Lowest induced pressure, Pa, as a magnitude. 0 means blank.
 * @param highest Highest induced pressure, Pa, as a magnitude. 0 means blank.
 * @param count Number of stations, 2 or more. 0 means blank.
 * @param [direction] "depressurization" or "pressurization"; needed with a baseline.
 * @param [baseline] Baseline, Pa, signed, or its readings, averaged. 0 is a value: pass blanks as "".
 * @returns Induced and displayed pressure.
 * @core planning/pressure-stations.ts
 * @check authorities/laws/planning/pressures.test.ts
 */
export function pressureStations(
  lowest: any[][],
  highest: any[][],
  count: any[][],
  direction?: string | null,
  baseline?: any[][],
): any[][] {
  return inCell(() => {
    const range = {
      lowest: oneNumber(lowest, "lowest"),
      highest: oneNumber(highest, "highest"),
      count: oneNumber(count, "count"),
    };
    const read = numbersIn(baseline, "baseline");
    const zero = read.length === 0 ? undefined : baselinePressure(read).pressure;
    return stationsOf(range, oneOf(direction, directions, "direction"), zero).map(({ induced, displayed }) =>
      finiteRow([induced, displayed]),
    );
  });
}

/**
 * Stack pressure of the day Δp, Pa, indoors minus outdoors, in winter negative below the neutral height. It is the baseline to expect in still air.
 * For dry air at 101 325 Pa; 8 m at 20 and 0 °C make −3.5 Pa at the ground.
 * Equation: Δp = ρ_e·g·(z − z_neutral)·(T_i − T_e)/T_i.
 * Source: ASHRAE Handbook—Fundamentals 2021 ch. 16, stack pressure; hydrostatics.
 * @customfunction STACKPRESSURE
 * @param height Height of the heated building, m (IP: ft). 0 means blank.
 * @param indoor_temperature Indoor air, °C (IP: °F). 0 is a value.
 * @param outdoor_temperature Outdoor air, °C (IP: °F). 0 is a value.
 * @param [measuring_height] Where the pressure is measured above the ground, m (IP: ft); at the ground where not given. 0 is a value.
 * @param [neutral_height] Where indoors and outdoors are equal, m (IP: ft); half the height where not given. 0 is a value: pass blanks as "".
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The pressure, Pa.
 * @core planning/natural-pressure.ts
 * @check authorities/planning-figures.test.ts
 */
export function stackPressure(
  height: any[][],
  indoor_temperature: any[][],
  outdoor_temperature: any[][],
  measuring_height?: any[][],
  neutral_height?: any[][],
  units?: string | null,
): any[][] {
  const inputs = {
    height: sizes("height", height),
    indoor: numbers("indoor_temperature", indoor_temperature),
    outdoor: numbers("outdoor_temperature", outdoor_temperature),
    measuring: optional(numbers("measuring_height", measuring_height)),
    neutral: optional(numbers("neutral_height", neutral_height)),
  };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ height, indoor, outdoor, measuring, neutral }) => {
      const heights = {
        height: toMethod(height, "length", system),
        measuring: toMethod(measuring, "length", system),
        neutral: toMethod(neutral, "length", system),
      };
      const degrees = (value: number) => toMethod(value, "temperature", system);
      return stackOf(heights, { indoor: degrees(indoor), outdoor: degrees(outdoor) });
    });
  });
}

/**
 * Stagnation pressure of the wind, Pa, for air of 1.2041 kg/m³. A façade feels a part of it, on the lee side with the opposite sign.
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
