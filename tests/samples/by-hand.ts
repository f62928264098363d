import { larchHouse } from "../../sample-workbooks/final-test/houses";
import type { Direction, DirectionReadings } from "../../sample-workbooks/final-test/scenario";

const { calibrationDensity, openings, rooms } = larchHouse;

/** A plain recomputation of the sample house, written from the published formulas without a line of the project's own code. */

/** Humid air: the saturation formula and the gas constants of method notes, step "Air densities". */
export function density(celsius: number, pressure: number, humidity: number): number {
  const kelvin = celsius + 273.15;
  const vapour = humidity * Math.exp(59.484085 - 6790.4985 / kelvin - 5.02802 * Math.log(kelvin));
  return (pressure - 0.37802 * vapour) / (287.055 * kelvin);
}

export const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

export function volumeByHand(): number {
  return rooms.reduce((sum, [, , length, width, height]) => sum + length * width * height, 0);
}

export interface HandResult {
  readonly n: number;
  readonly q50: number;
}

export function directionByHand(direction: Direction, given: DirectionReadings): HandResult {
  const inside = density(mean(given.indoorTemperature), given.barometer, given.indoorHumidity);
  const outside = density(mean(given.outdoorTemperature), given.barometer, given.outdoorHumidity);
  const [atFan, inLeaks] = direction === "depressurization" ? [inside, outside] : [outside, inside];
  const baseline = (mean(given.baselineBefore) + mean(given.baselineAfter)) / 2;
  const points = given.readings.flatMap(([pressure, opening, fanPressure, leftOut]) => {
    if (leftOut !== undefined) return [];
    const [, , c = NaN, m = NaN] = openings.find(([name]) => name === opening) ?? [];
    const flow = c * fanPressure ** m * Math.sqrt(calibrationDensity / atFan) * (atFan / inLeaks);
    return [[Math.log(Math.abs(pressure - baseline)), Math.log(flow)] as const];
  });
  const x = mean(points.map(([one]) => one));
  const y = mean(points.map(([, one]) => one));
  const n =
    points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0) / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
  const reference = 1.2041;
  const coefficient = Math.exp(y - n * x) * (inLeaks / reference) ** (1 - n);
  return { n, q50: coefficient * 50 ** n };
}
