import { densityOfBoth } from "../air/test-air";
import { baselineMovement, stackHalfWidth, windHalfWidth } from "./pressure-offsets";
import { normal, ofOpening, rectangular, type Source } from "./source";
import type { BaselineSet } from "./baseline-set";
import type { ModelTest } from "./model";

/**
 * What is assumed about the instruments and the day. "Accuracy" and "zero" are half-widths as a certificate gives them (±), "uncertainty" is standard.
 * Relative unless a unit is named.
 */
export interface Assumptions {
  readonly gaugeAccuracy: number;
  /** Pa, between baseline and readings. */
  readonly gaugeZero: number;
  readonly fanGaugeAccuracy: number;
  /** Pa */
  readonly fanGaugeZero: number;
  /** True where one calibration serves both gauges, so that both are wrong alike. */
  readonly oneCalibration: boolean;
  readonly flowCalibrationUncertainty: number;
  readonly openingCalibrationUncertainty: number;
  readonly fanExponentUncertainty: number;
  /** K */
  readonly indoorTemperatureUncertainty: number;
  readonly outdoorTemperatureUncertainty: number;
  /** Pa */
  readonly barometerUncertainty: number;
  /** Fractions. */
  readonly indoorHumidityAccuracy: number;
  readonly outdoorHumidityAccuracy: number;
  readonly sizeUncertainty: number;
  readonly sizeDegreesOfFreedom: number;
  /** m/s */
  readonly windSpeed: number;
  /** Difference of the pressure coefficients of the façades. */
  readonly windCoefficient: number;
  /** m */
  readonly buildingHeight: number;
  /** The part of wind and stack pressure that the baseline leaves in the readings. */
  readonly offsetShare: number;
}

/** How many openings have rows of their own. */
export const openingsInBudget = 3;

/** The sources that act in both directions. */
export function sharedSources(given: Assumptions, { air }: ModelTest): Source[] {
  const openings = Array.from({ length: openingsInBudget }, (_, opening) => opening);
  const { outdoor } = densityOfBoth(air);
  return [
    rectangular("g_e", given.oneCalibration ? "bothGaugeGains" : "gaugeGain", given.gaugeAccuracy),
    rectangular("o_e", "offset", given.gaugeZero),
    rectangular("g_f", "fanGain", given.oneCalibration ? 0 : given.fanGaugeAccuracy),
    rectangular("o_f", "fanZero", given.fanGaugeZero),
    normal("gamma_0", "flowGain", given.flowCalibrationUncertainty),
    ...openings.map((one) => ofOpening(normal("gamma", "openingGain", given.openingCalibrationUncertainty), one)),
    ...openings.map((one) => ofOpening(normal("m", "openingExponent", given.fanExponentUncertainty), one)),
    normal("theta_i", "indoorTemperature", given.indoorTemperatureUncertainty),
    normal("theta_e", "outdoorTemperature", given.outdoorTemperatureUncertainty),
    normal("p_bar", "barometer", given.barometerUncertainty),
    rectangular("phi_i", "indoorHumidity", given.indoorHumidityAccuracy),
    rectangular("phi_e", "outdoorHumidity", given.outdoorHumidityAccuracy),
    rectangular("stack", "offset", stackHalfWidth(given.offsetShare, outdoor, given.buildingHeight, air.temperature)),
    normal("size", "size", given.sizeUncertainty, given.sizeDegreesOfFreedom),
    rectangular("model", "extrapolation", 1),
  ];
}

/**
 * The sources that act in one direction: its baselines, what the baseline did between them, and the wind. An unknown course of the baseline is rectangular over
 * its movement d, u = d/√12 for its mean and d/√3 for a drift left in the readings. Without a baseline after the test the movement is not known.
 * @param mark Ends the symbols, so that the two directions keep theirs apart.
 */
export function ownSources(
  given: Assumptions,
  { air, baselineBefore, baselineAfter }: ModelTest,
  before: BaselineSet,
  after: BaselineSet | undefined,
  mark: string,
): Source[] {
  const moved =
    baselineAfter === undefined || after === undefined
      ? 0
      : baselineMovement(baselineBefore, baselineAfter, before.uncertainty, after.uncertainty);
  const wind = windHalfWidth(given.offsetShare, given.windCoefficient, densityOfBoth(air).outdoor, given.windSpeed);
  return [
    normal(`B1_${mark}`, "baselineBefore", before.uncertainty, before.degreesOfFreedom),
    normal(`B2_${mark}`, "baselineAfter", after?.uncertainty ?? 0, after?.degreesOfFreedom ?? Infinity),
    rectangular(`B_${mark}`, "baseline", moved / 2),
    rectangular(`drift_${mark}`, "drift", moved),
    rectangular(`wind_${mark}`, "offset", wind),
  ];
}
