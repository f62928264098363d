import { stackHalfWidth, usualBend, windHalfWidth, type SharedSource, type TestResult } from "../../core/index";
import type { Quantity } from "./quantity";
import { airIn, type Settings } from "../settings/settings";
import { differenceToMethod } from "../cells/units";

/**
 * What a budget assumes where the sheet says nothing, by the label that replaces it: magnitudes of common practice, no source. Temperatures in K, pressures in Pa.
 * "Accuracy", "zero" and "allowance" are half-widths, "uncertainty" is standard.
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
  "humidity accuracy": 0.1,
  "volume uncertainty": 0.02,
  "envelope area uncertainty": 0.02,
  "floor area uncertainty": 0.02,
  "size degrees of freedom": 50,
  "baseline uncertainty": 0.2,
  "wind coefficient": 1,
  "offset share": 0.1,
};

/** The value of a label in the method's units, assumed where it is not given. */
export function given(settings: Settings, label: keyof typeof assumed): number {
  const value = settings[label];
  if (value === undefined) return assumed[label];
  return label.includes("temperature") ? differenceToMethod(value, settings.system) : value;
}

/** A barometer that was read is known well, one from the altitude as the weather varies, one that is not given hardly at all. */
function barometerUncertainty(settings: Settings): number {
  const { barometerFrom } = airIn(settings);
  const usual = barometerFrom === "as read" ? 100 : barometerFrom.startsWith("from the altitude") ? 1000 : 3000;
  return settings["barometer uncertainty"] ?? usual;
}

/** Half-widths and standard uncertainties of the sources that act in both directions. */
export function widthsIn(
  settings: Settings,
  { density }: TestResult,
  { size }: Quantity,
): Readonly<Record<SharedSource, number>> {
  const of = (label: keyof typeof assumed) => given(settings, label);
  /** A humidity that was not read may be anything from 0 to 1. */
  const humidity = (side: "indoor" | "outdoor") =>
    settings[`${side} humidity`] === undefined ? 0.5 : of("humidity accuracy");
  return {
    g_e: of("gauge accuracy"),
    o_e: of("gauge zero"),
    g_f: of("fan gauge accuracy"),
    o_f: of("fan gauge zero"),
    gamma_0: of("flow calibration uncertainty"),
    gamma: of("opening calibration uncertainty"),
    m: of("fan exponent uncertainty"),
    theta_i: of("indoor temperature uncertainty"),
    theta_e: of("outdoor temperature uncertainty"),
    p_bar: barometerUncertainty(settings),
    phi_i: humidity("indoor"),
    phi_e: humidity("outdoor"),
    stack: stackHalfWidth(of("offset share"), settings["building height"] ?? 0, density),
    size: size === undefined ? 0 : of(`${size} uncertainty`),
    model: bendIn(settings),
  };
}

function bendIn({ "extrapolation allowance": allowance = usualBend }: Settings): number {
  return allowance === "none" ? 0 : allowance;
}

/** Half-width of the wind's offset, Pa. */
export function windIn(settings: Settings, { density }: TestResult): number {
  const [share, coefficient] = [given(settings, "offset share"), given(settings, "wind coefficient")];
  return windHalfWidth(share, coefficient, density.outdoor, settings["wind speed"] ?? 0);
}
