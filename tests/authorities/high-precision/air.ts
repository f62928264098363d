import type { Exact } from "./decimal";
import { exact } from "./decimal";

export const REFERENCE_DENSITY = exact("1.2041");
const GAS_CONSTANT_OF_DRY_AIR = exact("287.055");

function kelvin(celsius: Exact): Exact {
  return celsius.plus("273.15");
}

/** Saturation vapour pressure of water in Pa, from the temperature in °C. */
export function saturationPressure(temperature: Exact): Exact {
  const T = kelvin(temperature);
  return exact("59.484085").minus(exact("6790.4985").dividedBy(T)).minus(exact("5.02802").times(T.ln())).exp();
}

/** Density of moist air in kg/m³ from °C, Pa and the relative humidity as a fraction. */
export function airDensity(temperature: Exact, barometer: Exact, humidity: Exact): Exact {
  const vapour = humidity.times(saturationPressure(temperature));
  const effective = barometer.minus(exact("0.37802").times(vapour));
  return effective.dividedBy(GAS_CONSTANT_OF_DRY_AIR.times(kelvin(temperature)));
}

/** Station pressure in Pa from the altitude in m and the pressure at sea level in Pa (standard atmosphere). */
export function barometricPressure(altitude: Exact, seaLevel: Exact = exact(101325)): Exact {
  return seaLevel.times(exact(1).minus(exact("2.25577e-5").times(altitude)).pow("5.2559"));
}

/** Dynamic viscosity of air in Pa·s from °C, by Sutherland's formula. */
export function airViscosity(temperature: Exact): Exact {
  const T = kelvin(temperature);
  return exact("1.458e-6").times(T.pow("1.5")).dividedBy(T.plus("110.4"));
}

/** Viscosity at the reference temperature of 20 °C. */
export const REFERENCE_VISCOSITY = airViscosity(exact(20));

/** Density by the formula of ASTM E779, in kg/m³ from °C and the altitude in m. */
export function densityByAltitude(temperature: Exact, altitude: Exact): Exact {
  const pressureRatio = exact(1).minus(exact("0.0065").times(altitude).dividedBy(293)).pow("5.2553");
  return REFERENCE_DENSITY.times(pressureRatio).times(exact(293).dividedBy(temperature.plus(273)));
}
