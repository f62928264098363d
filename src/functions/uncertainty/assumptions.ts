import {
  analyzeBaselines,
  assumedNoise,
  type BaselineScatter,
  type BaselineSet,
  openingsInBudget,
  type ReadingNoise,
  type SharedSource,
  stackHalfWidth,
  type TestResult,
  usualBend,
  windHalfWidth,
} from "../../core/index";
import { differenceToMethod } from "../cells/units";
import { invalidSetting } from "../cells/rule-codes";
import { airIn, type Settings } from "../settings/settings";

/**
 * What a budget assumes if the sheet does not give it, by the label that replaces it: magnitudes of common practice, no source. Temperatures in K, pressures in Pa.
 * "Accuracy", "zero" and "allowance" are half-widths, "uncertainty" is standard.
 */
export const assumed = {
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

/** Labels of what each opening of the flow device has for itself. */
type OpeningLabel =
  "fan exponent uncertainty" | "opening calibration uncertainty" | "fan pressure at lowest flow" | "pivot fan pressure";

/** Labels of what there is once. */
type SingleLabel = Exclude<keyof typeof assumed, OpeningLabel>;

/**
 * What the settings say of each opening, counted from 0: one value for all, or one for each, in their order.
 * Errors: several values, but not one for each opening up to the last in use.
 */
export function ofOpenings(
  settings: Settings,
  label: OpeningLabel,
  inUse: readonly number[],
): (opening: number) => number | undefined {
  const { [label]: values = [] } = settings;
  const least = Math.max(...inUse) + 1;
  if (values.length > 1 && values.length < least)
    throw invalidSetting(label, "unlikeSize", { count: values.length, others: least, of: "openings" });
  return (opening) => values[values.length === 1 ? 0 : opening];
}

/** The value of a label in the method's units, assumed where it is not given. */
export function given(settings: Settings, label: SingleLabel): number {
  const value = settings[label];
  if (value === undefined) return assumed[label];
  return label === "indoor temperature uncertainty" || label === "outdoor temperature uncertainty"
    ? differenceToMethod(value, settings.system)
    : value;
}

/** A barometer reading is known well, a pressure from the altitude within the range of the weather, an assumed one barely. */
function barometerUncertainty(settings: Settings): number {
  const { barometerFrom } = airIn(settings);
  const usual = barometerFrom === "as read" ? 100 : barometerFrom === "assumed, none given" ? 3000 : 1000;
  return settings["barometer uncertainty"] ?? usual;
}

/** Half-widths and standard uncertainties of the sources that act in both directions, where the result is divided by no size. */
export function widthsIn(
  settings: Settings,
  { density }: TestResult,
  openingsInUse: readonly number[],
): Readonly<Record<SharedSource, number | readonly number[]>> {
  const of = (label: SingleLabel) => given(settings, label);
  const ofEach = (label: keyof typeof assumed & OpeningLabel) => {
    const at = ofOpenings(settings, label, openingsInUse);
    return Array.from({ length: openingsInBudget }, (_, opening) => at(opening) ?? assumed[label]);
  };
  /** A humidity that was not read may be anything from 0 to 1. */
  const humidity = (side: "indoor" | "outdoor") =>
    settings[`${side} humidity`] === undefined ? 0.5 : of("humidity accuracy");
  return {
    g_e: of("gauge accuracy"),
    o_e: of("gauge zero"),
    g_f: of("fan gauge accuracy"),
    o_f: of("fan gauge zero"),
    gamma_0: of("flow calibration uncertainty"),
    gamma: ofEach("opening calibration uncertainty"),
    m: ofEach("fan exponent uncertainty"),
    theta_i: of("indoor temperature uncertainty"),
    theta_e: of("outdoor temperature uncertainty"),
    p_bar: barometerUncertainty(settings),
    phi_i: humidity("indoor"),
    phi_e: humidity("outdoor"),
    stack: stackHalfWidth(of("offset share"), settings["building height"] ?? 0, density),
    size: 0,
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

/** What the baselines' own rows say, with the gauge as the settings have it. */
export function baselineScatter(
  settings: Settings,
  [before, after]: readonly [before: readonly number[], after?: readonly number[]],
): BaselineScatter {
  const assumptions = {
    resolution: given(settings, "gauge resolution"),
    ofOne: given(settings, "baseline uncertainty"),
  };
  return analyzeBaselines(before, after, assumptions);
}

/** Where a part of the noise comes from. */
export type NoiseOrigin = "as given" | "baseline" | "assumed";

interface NoiseOrigins {
  readonly pressure: NoiseOrigin;
  readonly flow: NoiseOrigin;
}

/** Source of the noise of a reading: the settings, else the baseline rows, else none. */
export function noiseOriginsIn(settings: Settings, { deviation }: BaselineScatter): NoiseOrigins {
  const { "pressure uncertainty": pressure, "flow uncertainty": flow } = settings;
  return {
    pressure: pressure !== undefined ? "as given" : deviation === undefined ? "assumed" : "baseline",
    flow: flow === undefined ? "assumed" : "as given",
  };
}

/** Random error of one reading: as the settings state it; the pressure's else from the scatter of the baseline's rows; else assumed. */
export function noiseIn(settings: Settings, scatter: BaselineScatter): ReadingNoise {
  const { pressure, flow } = noiseOriginsIn(settings, scatter);
  const ofPressure = settings["pressure uncertainty"] ?? scatter.deviation ?? assumedNoise.pressure;
  const ofFlow =
    settings["flow uncertainty"] ?? (pressure === "assumed" ? assumedNoise.flow : assumedNoise.flowBesideKnownPressure);
  return { pressure: ofPressure, flow: ofFlow, stated: pressure === "as given" && flow === "as given" };
}

/** True where the settings state the random error of a reading, so that the scatter can be compared with it. */
export function noiseIsStated(settings: Settings): boolean {
  return settings["pressure uncertainty"] !== undefined || settings["flow uncertainty"] !== undefined;
}

/** How well the mean of a baseline is known: as the settings state it, for this set or for both, else from its rows. */
export function baselineSetIn(settings: Settings, when: "before" | "after", fromRows: BaselineSet): BaselineSet {
  const uncertainty = settings[`baseline ${when} uncertainty`] ?? settings["baseline uncertainty"];
  if (uncertainty === undefined) return fromRows;
  const degreesOfFreedom =
    settings[`baseline ${when} degrees of freedom`] ?? settings["baseline degrees of freedom"] ?? Infinity;
  return { uncertainty, degreesOfFreedom };
}
