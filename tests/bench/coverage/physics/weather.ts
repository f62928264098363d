import { densitiesIn, type Climate } from "./air";

/** The day of every simulated test. */
export const climate: Climate = {
  indoorTemperature: 21,
  outdoorTemperature: 4,
  indoorHumidity: 0.45,
  outdoorHumidity: 0.75,
  barometer: 99_500,
};

const { outdoors: outdoorDensity } = densitiesIn(climate, "depressurization");

/** What share of the pressures of wind and stack may stay in the readings: the half-width of a rectangular law, as the function assumes it. */
const share = 0.1;

/** Half-width, Pa, of what wind of a speed in m/s leaves in the readings: of ½·ρ_e·U². */
export function windHalfWidth(speed: number): number {
  return (share * outdoorDensity * speed ** 2) / 2;
}

/** Half-width, Pa, of what the stack of a house of a height in m leaves in the readings: of ρ_e·g·H·(T_i − T_e)/T_i. */
export function stackHalfWidth(height: number): number {
  const difference = climate.indoorTemperature - climate.outdoorTemperature;
  return (share * outdoorDensity * 9.80665 * height * difference) / (climate.indoorTemperature + 273.15);
}
