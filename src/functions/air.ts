import {
  airDensity as densityOf,
  airViscosity as viscosityOf,
  assumedHumidity,
  barometricPressure as pressureAt,
  densityCorrection as correctionOf,
  densityOfBoth,
  directions,
  standardPressure,
} from "../core/index";
import { choice } from "./cells/cells";
import { inCell } from "./cells/host-error";
import { numbers, optional, sizes, spread } from "./cells/spread";
import { fromMethod, toMethod, unitSystem } from "./cells/units";

/**
 * Density of moist air ρ, kg/m³ (IP: lb/ft³).
 * Equation: ρ = (p − 0.37802·φ·p_sat)/(287.055·T).
 * Source: ISO 9972:2015, air density.
 * @customfunction AIRDENSITY
 * @param temperature Air temperature, °C (IP: °F). 0 is a value.
 * @param [barometric_pressure] Station pressure, Pa (IP: inHg); 101 325 Pa where not given. 0 means blank.
 * @param [relative_humidity] A fraction, 0.5 for 50 %; 0.5 is assumed where not given. 0 is a value: dry air.
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

/**
 * Barometric pressure at an altitude, Pa (IP: inHg). For when no barometer was read.
 * Equation: p = p0·(1 − 2.25577e-5·Z)^5.2559.
 * Source: ASHRAE Handbook—Fundamentals 2021 ch. 1 eqn. 3; US Standard Atmosphere 1976.
 * @customfunction BAROMETRICPRESSURE
 * @param altitude Altitude above sea level, m (IP: ft). 0 is a value.
 * @param [sea_level_pressure] A weather report's pressure reduced to sea level, Pa (IP: inHg); 101 325 Pa where not given. 0 means blank.
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

/**
 * Dynamic viscosity of air μ, Pa·s (IP: lb/(ft·s)).
 * Equation: μ = 1.458e-6·T^1.5/(T + 110.4).
 * Source: US Standard Atmosphere 1976 eqn. 51 (Sutherland).
 * @customfunction AIRVISCOSITY
 * @param temperature Air temperature, °C (IP: °F). 0 is a value.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The viscosity.
 * @core air/viscosity.ts
 * @check authorities/reference-checks.test.ts
 */
export function airViscosity(temperature: any[][], units?: string | null): any[][] {
  const inputs = { temperature: numbers("temperature", temperature) };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ temperature }) =>
      fromMethod(viscosityOf(toMethod(temperature, "temperature", system)), "viscosity", system),
    );
  });
}

/**
 * Factor from the flow at the fan to the flow through the envelope.
 * Equation: factor = ρ_i/ρ_e depressurizing, ρ_e/ρ_i pressurizing.
 * Source: ISO 9972:2015, air leakage rate; ASTM E779.
 * @customfunction DENSITYCORRECTION
 * @param direction "depressurization" or "pressurization".
 * @param indoor_temperature Indoor air, °C (IP: °F). 0 is a value.
 * @param outdoor_temperature Outdoor air, °C (IP: °F). 0 is a value.
 * @param [barometric_pressure] Station pressure, Pa (IP: inHg); 101 325 Pa where not given. 0 means blank.
 * @param [indoor_humidity] Relative humidity indoors, a fraction; 0.5 is assumed where not given. 0 is a value.
 * @param [outdoor_humidity] Relative humidity outdoors, a fraction; 0.5 is assumed where not given. 0 is a value.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The factor.
 * @core air/density-correction.ts air/test-air.ts
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
