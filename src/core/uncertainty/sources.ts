import type { BaselineSet } from "./baseline-set";
import type { ModelTest } from "./model";
import { baselineMovement } from "./pressure-offsets";
import { normal, ofOpening, rectangular, type Effect, type Source } from "./source";

/** How many openings have rows of their own. */
export const openingsInBudget = 3;

/** The sources that act in both directions: where, by which law, and whether each opening has its own. */
const sharedRows = {
  g_e: ["gaugeGain", rectangular],
  o_e: ["offset", rectangular],
  g_f: ["fanGain", rectangular],
  o_f: ["fanZero", rectangular],
  gamma_0: ["flowGain", normal],
  gamma: ["openingGain", normal, "an opening"],
  m: ["openingExponent", normal, "an opening"],
  theta_i: ["indoorTemperature", normal],
  theta_e: ["outdoorTemperature", normal],
  p_bar: ["barometer", normal],
  phi_i: ["indoorHumidity", rectangular],
  phi_e: ["outdoorHumidity", rectangular],
  stack: ["offset", rectangular],
  size: ["size", normal],
  model: ["extrapolation", rectangular],
} satisfies Record<string, readonly [effect: Effect, law: typeof rectangular, each?: "an opening"]>;

export type SharedSource = keyof typeof sharedRows;

/**
 * The sources that act in both directions, in the order of a budget.
 * @param widths Half-widths of the rectangular ones, standard uncertainties of the normal ones; relative but for o_e, o_f, p_bar, stack (Pa), theta (K), phi (a fraction of
 * humidity); model: 1, since each result has its own allowance.
 * @param oneCalibration True where one calibration serves both gauges, so that both are wrong alike and g_f has nothing of its own.
 */
export function sharedSources(
  widths: Readonly<Record<SharedSource, number>>,
  sizeDegreesOfFreedom: number,
  oneCalibration: boolean,
): Source[] {
  return Object.entries(sharedRows).flatMap(
    ([name, [effect, law, each]]: [string, readonly [Effect, typeof rectangular, string?]]) => {
      const source = law(name, effect, widths[name as SharedSource]);
      if (name === "size") return { ...source, degreesOfFreedom: sizeDegreesOfFreedom };
      if (oneCalibration && name === "g_e") return { ...source, effect: "bothGaugeGains" as const };
      if (oneCalibration && name === "g_f") return { ...source, uncertainty: 0 };
      if (each === undefined) return source;
      return Array.from({ length: openingsInBudget }, (_, opening) => ofOpening(source, opening));
    },
  );
}

/**
 * The sources that act in one direction: its baselines, what the baseline did between them, and the wind. An unknown course of the baseline is rectangular over
 * its movement d, u = d/√12 for its mean and d/√3 for a drift left in the readings. Without a baseline after the test the movement is not known.
 * @param wind Half-width of the wind's offset, Pa.
 * @param mark Ends the symbols, so that the two directions keep theirs apart.
 */
export function ownSources(
  { baselineBefore, baselineAfter }: Pick<ModelTest, "baselineBefore" | "baselineAfter">,
  before: BaselineSet,
  after: BaselineSet | undefined,
  wind: number,
  mark: string,
): Source[] {
  const moved =
    baselineAfter === undefined || after === undefined
      ? 0
      : baselineMovement(baselineBefore, baselineAfter, before.uncertainty, after.uncertainty);
  return [
    normal(`B1_${mark}`, "baselineBefore", before.uncertainty, before.degreesOfFreedom),
    normal(`B2_${mark}`, "baselineAfter", after?.uncertainty ?? 0, after?.degreesOfFreedom ?? Infinity),
    rectangular(`B_${mark}`, "baseline", moved / 2),
    rectangular(`drift_${mark}`, "drift", moved),
    rectangular(`wind_${mark}`, "offset", wind),
  ];
}
