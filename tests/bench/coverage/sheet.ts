import type { Climate, Direction } from "./physics/air";
import { fanExponent, pivot } from "./physics/flow-device";
import { deviationOfMean } from "./physics/gusts";
import type { Instruments } from "./physics/instruments";
import type { Scenario } from "./scenarios";

/** A row of the settings. */
export type Setting = readonly [label: string, value: string | number];

/** One direction as a tester types it: the arguments of the functions that take a whole test. */
export interface Sheet {
  readonly direction: Direction;
  readonly pressures: number[][];
  readonly flows: number[][];
  readonly before: number[][];
  readonly after: number[][];
  readonly settings: readonly Setting[];
}

/** Seconds from the middle of the baseline before to the middle of the one after. */
export const duration = 600;

/**
 * What the tester types beside the readings.
 * @param volume As measured, m³.
 * @param read The climate as measured.
 * @param lowestFanPressure Fan pressure at the lowest flow as read, Pa.
 */
export function typedSettings(
  scenario: Scenario,
  instruments: Instruments,
  volume: number,
  read: Climate,
  lowestFanPressure: number,
): Setting[] {
  const when: Setting[] = [
    ["time of baseline before", 0],
    ["time of baseline after", duration],
  ];
  const weather: Setting[] = [
    ["wind speed", scenario.wind],
    ["building height", scenario.height],
  ];
  return [
    ["volume", volume],
    ["flow basis", scenario.flowBasis],
    ["indoor temperature", read.indoorTemperature],
    ["outdoor temperature", read.outdoorTemperature],
    ["indoor humidity", read.indoorHumidity],
    ["outdoor humidity", read.outdoorHumidity],
    ["barometric pressure", read.barometer],
    ["openings", scenario.openings],
    ["fan exponent", fanExponent],
    ["pivot fan pressure", pivot],
    ["fan pressure at lowest flow", lowestFanPressure],
    ...instruments.settings,
    ...scenario.settings,
    ...(scenario.times ? when : []),
    ...weather.filter(([, value]) => value !== 0),
  ];
}

/** Standard uncertainty of one reading as a tester who knows it would state it: Pa, and a fraction of the flow. */
export function statedNoise({ reading }: Scenario, { resolution }: Instruments): Setting[] {
  return [
    ["pressure uncertainty", Math.hypot(deviationOfMean(reading.gusts, reading.seconds), resolution / Math.sqrt(12))],
    ["flow uncertainty", reading.flowNoise],
  ];
}
