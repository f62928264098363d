import type { InsideOutside } from "../direction";
import type { LeakageFit } from "../leakage/curve";
import { assumedExponentDeviation } from "../leakage/expected-exponent";
import { freeFall } from "../constants";
import type { BaselineSet } from "./baseline-sets";
import { type Effect, type ModelTest, normal, ofOpening, rectangular, type Source } from "./model";

/** How many openings have separate rows. */
export const openingsInBudget = 8;

/** The sources that act in both directions: where, and by which law. */
const sharedRows = {
  g_e: ["gaugeGain", rectangular],
  o_e: ["offset", rectangular],
  g_f: ["fanGain", rectangular],
  o_f: ["fanZero", rectangular],
  gamma_0: ["flowGain", normal],
  gamma: ["openingGain", normal],
  m: ["openingExponent", normal],
  theta_i: ["indoorTemperature", normal],
  theta_e: ["outdoorTemperature", normal],
  p_bar: ["barometer", normal],
  phi_i: ["indoorHumidity", rectangular],
  phi_e: ["outdoorHumidity", rectangular],
  stack: ["offset", rectangular],
  size: ["size", normal],
  model: ["extrapolation", rectangular],
} satisfies Record<string, readonly [effect: Effect, law: typeof rectangular]>;

export type SharedSource = keyof typeof sharedRows;

/**
 * The sources that act in both directions, in the order of a budget.
 * @param widths One for each opening where each has its own. Half-widths of the rectangular ones, standard uncertainties of the normal ones; relative but for o_e, o_f, p_bar, stack (Pa), theta (K), phi (a fraction of
 * humidity); model: the bend of the curve, dn/d ln Δp.
 * @param oneCalibration True where one calibration serves both gauges, so that both have the same error and g_f adds none.
 */
export function sharedSources(
  widths: Readonly<Record<SharedSource, number | readonly number[]>>,
  sizeDegreesOfFreedom: number,
  oneCalibration: boolean,
): Source[] {
  return Object.entries(sharedRows).flatMap(([name, [effect, law]]) => {
    const width = widths[name as SharedSource];
    if (typeof width !== "number") return width.map((one, opening) => ofOpening(law(name, effect, one), opening));
    const source = law(name, effect, width);
    if (name === "size") return { ...source, degreesOfFreedom: sizeDegreesOfFreedom };
    if (oneCalibration && name === "g_e") return { ...source, effect: "bothGaugeGains" as const };
    return oneCalibration && name === "g_f" ? { ...source, uncertainty: 0 } : source;
  });
}

/** The expected exponent as a source, where the technique weighs one: the house's own differs from it, in both directions alike. */
export function priorSource({ degreesOfFreedom }: LeakageFit): Source {
  return normal("prior", "expectedExponent", assumedExponentDeviation, degreesOfFreedom);
}

/**
 * The means of the baselines before and after as sources. A baseline that serves both directions acts in both, with opposite sign on the induced pressures: then the two tables
 * name it alike, and the mean of the directions adds it before squaring.
 * @param mark Ends the symbols of a direction's own baseline; empty where both directions share it.
 */
export function baselineSources(before: BaselineSet, after: BaselineSet | undefined, mark: string): Source[] {
  const end = mark === "" ? "" : `_${mark}`;
  return [
    normal(`B1${end}`, "baselineBefore", before.uncertainty, before.degreesOfFreedom),
    normal(`B2${end}`, "baselineAfter", after?.uncertainty ?? 0, after?.degreesOfFreedom ?? Infinity),
  ];
}

/**
 * The sources that act in one direction alone: what the baseline did between before and after, and the wind. Its course is unknown but for its movement d: its mean over the readings is
 * uncertain by d/√12, as a step at an unknown time or a random walk is; the drift left in the readings has the size d of a straight course (a step gives 1.1·d). Where the zero follows the
 * time no drift is left. Without a baseline after the test the movement is not known.
 * @param wind Half-width of the wind's offset, Pa.
 * @param mark Ends the symbols, so that the two directions keep theirs apart.
 */
export function ownSources(
  {
    baselineBefore,
    baselineAfter,
    zeroFollowsTime,
  }: Pick<ModelTest, "baselineBefore" | "baselineAfter" | "zeroFollowsTime">,
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
    rectangular(`B_${mark}`, "baseline", moved / 2),
    normal(`drift_${mark}`, "drift", zeroFollowsTime === true ? 0 : moved),
    rectangular(`wind_${mark}`, "offset", wind),
  ];
}

/**
 * By how much the baseline moved from before to after, beyond what its readings' own uncertainty explains, Pa: d² = (B2 − B1)² − u²(B1) − u²(B2), not below 0.
 * Example: baselineMovement(-1.2, -1.8, 0.1, 0.2) → 0.5568
 */
export function baselineMovement(before: number, after: number, uBefore: number, uAfter: number): number {
  return Math.sqrt(Math.max(0, (after - before) ** 2 - uBefore ** 2 - uAfter ** 2));
}

/**
 * Half-width in Pa of the wind's offset: a share of ΔC_p·½ρ_e·U², U in m/s.
 * Example: windHalfWidth(0.5, 0.2, 1.29, 3) → 0.58
 */
export function windHalfWidth(share: number, coefficient: number, outdoorDensity: number, speed: number): number {
  return (share * coefficient * outdoorDensity * speed ** 2) / 2;
}

/**
 * Half-width in Pa of the stack's offset: a share of g·H·|ρ_e − ρ_i|, H in m, the densities of the test's air in kg/m³.
 * Example: stackHalfWidth(0.5, 6, { indoor: 1.199, outdoor: 1.29 }) → 2.68
 */
export function stackHalfWidth(share: number, height: number, { indoor, outdoor }: InsideOutside): number {
  return share * freeFall * height * Math.abs(outdoor - indoor);
}
