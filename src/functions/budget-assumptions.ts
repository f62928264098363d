import type { Assumptions, StatedNoise } from "../core/index";
import type { Quantity } from "./budget-quantity";
import { differenceToMethod } from "./units";
import { airIn, type Settings } from "./settings";

/**
 * What a budget assumes where the sheet says nothing, by the label that replaces it: magnitudes of common practice, no source. Temperatures in K, barometer in Pa.
 * "Accuracy", "zero" and "extrapolation" are half-widths, "uncertainty" is standard.
 */
const assumed = {
  "gauge accuracy": 0.01,
  "gauge zero": 0.1,
  "gauge resolution": 0.1,
  "fan gauge accuracy": 0.01,
  "fan gauge zero": 0.1,
  "fan exponent": 0.5,
  "fan exponent uncertainty": 0.003,
  "flow calibration uncertainty": 0.015,
  "opening calibration uncertainty": 0.01,
  "indoor temperature uncertainty": 0.5,
  "outdoor temperature uncertainty": 1,
  "volume uncertainty": 0.02,
  "envelope area uncertainty": 0.02,
  "floor area uncertainty": 0.02,
  "size degrees of freedom": 50,
  "baseline uncertainty": 0.2,
  "wind coefficient": 1,
  "offset share": 0.1,
  "extrapolation above": 0.06,
  "extrapolation below": 0.1,
} as const;

type Assumed = keyof typeof assumed;

/** The value of a label and whether it had to be assumed. */
export function assumption(
  settings: Settings,
  label: Assumed,
): { readonly value: number; readonly isAssumed: boolean } {
  const given = settings[label];
  if (given === undefined) return { value: assumed[label], isAssumed: true };
  const value = label.includes("temperature") ? differenceToMethod(given, settings.system) : given;
  return { value, isAssumed: false };
}

/** A barometer that was read is known well, one from the altitude as the weather varies, one that nobody gave hardly at all. */
function barometerUncertainty(settings: Settings): number {
  const { barometerFrom } = airIn(settings);
  return (
    settings["barometer uncertainty"] ??
    (barometerFrom === "as read" ? 100 : barometerFrom.startsWith("from the altitude") ? 1000 : 3000)
  );
}

/** A humidity that was not read may be anything from 0 to 1. */
function humidityAccuracy(settings: Settings, side: "indoor" | "outdoor"): number {
  return settings[`${side} humidity`] === undefined ? 0.5 : (settings["humidity accuracy"] ?? 0.1);
}

/** Everything that a budget assumes, in the method's units. */
export function assumptionsIn(settings: Settings, { size }: Quantity): Assumptions {
  const value = (label: Assumed) => assumption(settings, label).value;
  return {
    gaugeAccuracy: value("gauge accuracy"),
    gaugeZero: value("gauge zero"),
    fanGaugeAccuracy: value("fan gauge accuracy"),
    fanGaugeZero: value("fan gauge zero"),
    oneCalibration: settings["gauges of one calibration"] === "yes",
    flowCalibrationUncertainty: value("flow calibration uncertainty"),
    openingCalibrationUncertainty: value("opening calibration uncertainty"),
    fanExponentUncertainty: value("fan exponent uncertainty"),
    indoorTemperatureUncertainty: value("indoor temperature uncertainty"),
    outdoorTemperatureUncertainty: value("outdoor temperature uncertainty"),
    barometerUncertainty: barometerUncertainty(settings),
    indoorHumidityAccuracy: humidityAccuracy(settings, "indoor"),
    outdoorHumidityAccuracy: humidityAccuracy(settings, "outdoor"),
    sizeUncertainty: size === undefined ? 0 : value(`${size} uncertainty`),
    sizeDegreesOfFreedom: value("size degrees of freedom"),
    windSpeed: settings["wind speed"] ?? 0,
    windCoefficient: value("wind coefficient"),
    buildingHeight: settings["building height"] ?? 0,
    offsetShare: value("offset share"),
  };
}

/** Random error of one reading: as the settings state it, at least what the gauge resolves. */
export function noiseIn(settings: Settings): StatedNoise {
  const ofGauge = assumption(settings, "gauge resolution").value / Math.sqrt(12);
  return {
    pressure: settings["pressure uncertainty"] ?? ofGauge,
    fan: (settings["flow uncertainty"] ?? 0) / assumption(settings, "fan exponent").value,
  };
}

/** True where the settings state the random error of a reading, so that the scatter can be held against it. */
export function noiseIsStated(settings: Settings): boolean {
  return settings["pressure uncertainty"] !== undefined || settings["flow uncertainty"] !== undefined;
}
