import {
  analyzeBaselines,
  assumedNoise,
  type BaselineScatter,
  type BaselineSet,
  type ReadingNoise,
} from "../../core/index";
import type { Settings } from "../settings/settings";
import { given } from "./assumptions";

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

export interface NoiseOrigins {
  readonly pressure: NoiseOrigin;
  readonly flow: NoiseOrigin;
}

/** Where the noise of a reading is known from: the settings, else the baseline's own rows, else nowhere. */
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

/** True where the settings state the random error of a reading, so that the scatter can be held against it. */
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
