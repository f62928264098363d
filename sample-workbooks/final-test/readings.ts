/** Invented readings, rounded as the gauges would show them; both directions of one house within one hour. */

export type Direction = "depressurization" | "pressurization";

export interface DirectionReadings {
  /** Indoors, before and after, in the units of the form. */
  readonly indoorTemperature: readonly [number, number];
  readonly outdoorTemperature: readonly [number, number];
  /** Fractions. */
  readonly indoorHumidity: number;
  readonly outdoorHumidity: number;
  /** Read at the house. */
  readonly barometer: number;
  /** Where it is read is chosen on the sheet Preparation. */
  readonly wind: number;
  /** Ten means over 10 s each, flow device covered, Pa. */
  readonly baselineBefore: readonly number[];
  readonly baselineAfter: readonly number[];
  /** Pressure indoors minus outdoors and fan pressure, both in Pa, with the opening in use, and why a reading is left out. */
  readonly readings: readonly (readonly [pressure: number, opening: string, fanPressure: number, leftOut?: string])[];
}

export const depressurization: DirectionReadings = {
  indoorTemperature: [20.4, 20.6],
  outdoorTemperature: [6.9, 7.3],
  indoorHumidity: 0.46,
  outdoorHumidity: 0.82,
  barometer: 100_640,
  wind: 1.6,
  baselineBefore: [-1.4, -1.6, -2.0, -1.4, -1.2, -1.4, -1.8, -1.5, -1.8, -1.3],
  baselineAfter: [-1.3, -1.7, -2.2, -2.4, -1.5, -2.1, -2.2, -1.7, -1.5, -1.6],
  readings: [
    [-66.0, "C", 282.7],
    [-61.2, "C", 252.3],
    [-57.4, "C", 235.9],
    [-50.4, "C", 194.4],
    [-46.2, "C", 173.7],
    [-40.2, "C", 141.1],
    [-33.5, "C", 111.4],
    [-27.6, "C", 84.7],
    [-20.7, "C", 57.3],
    [-14.9, "C", 34.8],
  ],
};

/** The same direction once more, with a reading that a gust spoilt. */
export const secondDepressurization: DirectionReadings = {
  indoorTemperature: [20.5, 20.4],
  outdoorTemperature: [7.8, 8.0],
  indoorHumidity: 0.46,
  outdoorHumidity: 0.79,
  barometer: 100_610,
  wind: 2.1,
  baselineBefore: [-1.2, -1.5, -1.7, -1.3, -1.4, -1.6, -1.5, -1.2, -1.4, -1.5],
  baselineAfter: [-1.4, -1.6, -1.3, -1.7, -1.8, -1.5, -1.4, -1.3, -1.6, -1.5],
  readings: [
    [-64.0, "C", 277.2],
    [-57.6, "C", 239.5],
    [-50.9, "C", 203.4],
    [-44.7, "C", 171.3],
    [-38.8, "C", 152.9, "gust; taken once more below"],
    [-38.6, "C", 139.9],
    [-32.1, "C", 108.4],
    [-26.3, "C", 81.8],
    [-20.4, "C", 57.7],
    [-14.9, "C", 36.6],
  ],
};

export const pressurization: DirectionReadings = {
  indoorTemperature: [20.6, 20.6],
  outdoorTemperature: [7.4, 7.8],
  indoorHumidity: 0.46,
  outdoorHumidity: 0.8,
  barometer: 100_620,
  wind: 1.9,
  baselineBefore: [-0.8, -1.7, -2.0, -1.2, -1.6, -1.7, -1.6, -1.5, -1.8, -1.6],
  baselineAfter: [-1.3, -1.0, -1.7, -1.2, -1.3, -1.2, -1.3, -1.5, -1.3, -0.9],
  readings: [
    [61.7, "C", 215.6],
    [57.4, "C", 193.4],
    [49.6, "C", 166.1],
    [43.9, "C", 142.2],
    [38.4, "C", 118.3],
    [31.9, "C", 95.5],
    [25.2, "C", 71.3],
    [18.7, "C", 49.8],
    [11.8, "C", 29.2],
  ],
};
