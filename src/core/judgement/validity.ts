import type { Direction } from "../direction";
import { type LeakageFit, standardErrorOfLogFlow, type Technique } from "../leakage/curve";
import type { LeakageReading } from "../leakage/readings";
import { atMost, largest, mean, smallest } from "../numbers";
import { countExactZeros } from "../readings/baseline";
import { type CheckName, checkNames } from "../standards/check-names";
import type { DirectionRule, Limit, Origin, Profile } from "../standards/profile";
import { profiles, type Standard } from "../standards/profiles";
import { methodVersion } from "../version";

/** Outcome of a check; blank where the standard has no limit. */
export type Outcome = "met" | "not met" | "cannot be judged" | "";

/** One check of one direction. */
export interface Check {
  readonly name: CheckName;
  readonly measured: number | string | undefined;
  /** Of how many the measured value is a count. */
  readonly of?: number | undefined;
  /** The range to keep to, or the word asked for; absent where the standard has none. */
  readonly limit: Limit | DirectionRule | Technique | undefined;
  readonly outcome: Outcome;
  readonly binding: boolean;
  /** Absent where the standard has no limit. */
  readonly origin: Origin | undefined;
}

/** Where the wind is measured. */
export const windPlaces = ["near the ground", "weather station"] as const;

/** How the tester's own words bear on the limits. */
interface Allowances {
  /** Where the wind was measured. */
  readonly windPlace?: (typeof windPlaces)[number] | undefined;
  /** True where a reason is stated for staying below the usual highest pressure. */
  readonly reasonStated?: boolean;
}

/** Compares a measured value with a limit, ends included with the slack of every comparison. */
function outcomeOf({ value, partial }: Measured, { lower, upper, above }: Limit): Outcome {
  if (typeof value !== "number") return "cannot be judged";
  const kept =
    (lower === undefined || atMost(lower, value)) &&
    (upper === undefined || atMost(value, upper)) &&
    (above === undefined || !atMost(value, above));
  if (!kept) return "not met";
  return partial === true ? "cannot be judged" : "met";
}

/** Both directions were tested where the flow of the other one is given; a rule that names one direction asks for this one alone. */
function outcomeOfDirection({ direction, flowAt50Otherwise }: TestFacts, wanted: DirectionRule): Outcome {
  if (wanted === "either") return "met";
  if (wanted === "both") return flowAt50Otherwise === undefined ? "cannot be judged" : "met";
  return direction === wanted ? "met" : "not met";
}

function limitOf(name: CheckName, profile: Profile, { windPlace, reasonStated }: Allowances): Limit | undefined {
  const limit = profile.checks[name];
  if (name === "wind" && windPlace === "weather station") return profile.stationWind ?? limit;
  const relaxed = reasonStated === true ? limit?.lowerWithReason : undefined;
  return limit === undefined || relaxed === undefined ? limit : { ...limit, lower: relaxed };
}

type Judged = Pick<Check, "limit" | "outcome" | "binding" | "origin">;

/** A standard's verdict on one measured value. */
function judge(
  name: CheckName,
  measured: Measured,
  facts: TestFacts,
  profile: Profile,
  allowances: Allowances,
): Judged {
  if (name === "direction") {
    const { directions: origin } = profile;
    const { value, binding } = origin;
    return { limit: value, outcome: outcomeOfDirection(facts, value), binding, origin };
  }
  if (name === "technique") {
    const { technique: origin } = profile;
    const { value } = origin;
    return { limit: value, outcome: facts.technique === value ? "met" : "not met", binding: false, origin };
  }
  const limit = limitOf(name, profile, allowances);
  if (limit === undefined) return { limit, outcome: "", binding: false, origin: undefined };
  const unplaced = name === "wind" && !windIsJudged(profile, allowances);
  const outcome = unplaced ? "cannot be judged" : outcomeOf(measured, limit);
  return { limit, outcome, binding: limit.binding, origin: limit };
}

/** A wind is judged only by a limit for the place where it was measured. */
function windIsJudged({ stationWind }: Profile, { windPlace }: Allowances): boolean {
  return windPlace === "near the ground" || (windPlace === "weather station" && stationWind !== undefined);
}

/**
 * Whether one direction of a test meets its standard, one row per check, always the same rows in the same order. A check is "met" only where it
 * was truly judged; a missing input leaves it "cannot be judged"; a check that the standard does not have is blank.
 * Source: the profiles of core/standards, each limit with its clause and mark.
 */
export function validityChecks(facts: TestFacts, standard: Standard, allowances: Allowances = {}): Check[] {
  const values = measuredValues(facts);
  return checkNames.map((name): Check => {
    const measured = values[name];
    const { value, of } = measured;
    return { name, measured: value, of, ...judge(name, measured, facts, profiles[standard], allowances) };
  });
}

/** What is known about one direction of a test; whatever is absent leaves its checks open. */
export interface TestFacts {
  readonly direction: Direction;
  /** Baseline readings, Pa, signed, indoors minus outdoors. */
  readonly baselineBefore: readonly number[];
  readonly baselineAfter?: readonly number[] | undefined;
  /** Induced pressures as magnitudes, Pa; empty while the baseline is not known. */
  readonly points: readonly LeakageReading[];
  /** How many readings are used. */
  readonly count: number;
  readonly technique: Technique;
  readonly fit?: LeakageFit | undefined;
  /** 1/h */
  readonly airChangeRate?: number | undefined;
  /** Flow at 50 Pa, m³/h, of this direction and of the other. */
  readonly flowAt50?: number | undefined;
  readonly flowAt50Otherwise?: number | undefined;
  /** Larger half of the 95 % interval of the flow at 50 Pa, as a fraction of that flow; it covers only the scatter of the readings. */
  readonly halfIntervalAt50?: number | undefined;
  /** The same of the leakage at 75 Pa, m³/h per m² of envelope. */
  readonly halfIntervalAt75?: number | undefined;
  /** Another pressure, Pa, that a result is given for. */
  readonly referencePressure?: number | undefined;
  /** Height of the building, m, times the temperature difference, K. */
  readonly heightTimesDifference?: number | undefined;
  /** °C */
  readonly outdoorTemperature?: number | undefined;
  /** m/s; undefined also where its place is not known. */
  readonly wind?: number | undefined;
  readonly beaufort?: number | undefined;
  /** Days from the test to the last valid day of the certificate. */
  readonly gaugeDays?: number | undefined;
  readonly fanDays?: number | undefined;
}

/** A measured value. */
interface Measured {
  readonly value?: number | string | undefined;
  /** True where the value can show that a limit is broken, but not that it is kept: more than it says is not known. */
  readonly partial?: true;
  /** Of how many the value is a count. */
  readonly of?: number;
}

/**
 * Mean of the readings on one side of zero, 0 where there is none. A set of one reading may be an average that hides readings on both sides, so it says
 * only what is the least.
 */
function meanOnSide(readings: readonly number[] | undefined, side: 1 | -1): Measured {
  if (readings === undefined || readings.length === 0) return {};
  const onSide = readings.filter((reading) => side * reading > 0);
  if (readings.length === 1) return onSide.length === 0 ? {} : { value: onSide[0]!, partial: true };
  return { value: onSide.length === 0 ? 0 : mean(onSide) };
}

function sizes(list: readonly Measured[]): number[] {
  return list.flatMap(({ value }) => (typeof value === "number" ? [Math.abs(value)] : []));
}

/** The larger of the means of the baseline in % of the lowest pressure, as far as these are known. */
function meansOfLowest(lowest: number | undefined, means: readonly Measured[]): Measured {
  const known = sizes(means);
  if (lowest === undefined || known.length === 0) return {};
  const value = (100 * Math.max(...known)) / lowest;
  // A mean that is partial has an unknown one beside it, that of its other side.
  return means.some((one) => one.value === undefined) ? { value, partial: true } : { value };
}

/** Largest baseline reading in % of the lowest pressure; a single reading of a set may hide larger ones. */
function readingsOfLowest(lowest: number | undefined, sets: readonly (readonly number[])[]): Measured {
  const readings = sets.flat();
  if (lowest === undefined || readings.length === 0) return {};
  const value = (100 * largest(readings.map(Math.abs))) / lowest;
  return sets.length < 2 || sets.some(({ length }) => length < 2) ? { value, partial: true } : { value };
}

/** Highest less lowest baseline reading; a single reading of a set may be an average that hides a wider range. */
function baselineRange(sets: readonly (readonly number[])[]): Measured {
  const readings = sets.flat();
  if (readings.length === 0) return {};
  const value = largest(readings) - smallest(readings);
  return sets.some(({ length }) => length === 1) ? { value, partial: true } : { value };
}

/** Exact zeros among the baseline readings. */
function zeros(readings: readonly number[]): Measured {
  return readings.length === 0 ? {} : { value: countExactZeros(readings), of: readings.length };
}

/** Largest step between neighbouring pressures. */
function largestStep(sorted: readonly number[]): number {
  return largest(sorted.slice(1).map((pressure, index) => pressure - sorted[index]!));
}

function known(value: number | undefined): Measured {
  return { value };
}

function differencePercent(one: number | undefined, other: number | undefined): number | undefined {
  return one === undefined || other === undefined ? undefined : (200 * Math.abs(one - other)) / (one + other);
}

/** The measured value of every check. */
function measuredValues(facts: TestFacts): Record<CheckName, Measured> {
  const { fit, baselineBefore: before, baselineAfter: after } = facts;
  const sorted = facts.points.map(({ pressure }) => pressure).sort((one, other) => one - other);
  const [lowest, highest] = [sorted[0], sorted.at(-1)];
  const means = {
    "dp01+": meanOnSide(before, 1),
    "dp01-": meanOnSide(before, -1),
    "dp02+": meanOnSide(after, 1),
    "dp02-": meanOnSide(after, -1),
  };
  const sets = [before, ...(after === undefined ? [] : [after])];
  /** How far a pressure lies beyond the readings, as a ratio; up to 1 it lies among them. */
  const beyond = (pressure: number | undefined): Measured =>
    pressure === undefined || lowest === undefined || highest === undefined
      ? {}
      : { value: Math.max(pressure / highest, lowest / pressure) };
  const slopeRises = fit !== undefined && fit.exponent > 0;
  return {
    direction: { value: facts.direction },
    count_dp0:
      before.length === 0
        ? {}
        : { value: Math.min(...sets.map(({ length }) => length)), ...(sets.length < 2 && { partial: true }) },
    ...means,
    count: { value: facts.count },
    dp_min: known(lowest),
    dp0_of_min: meansOfLowest(lowest, Object.values(means)),
    reading_of_min: readingsOfLowest(lowest, sets),
    dp_max: known(highest),
    dp_span: sorted.length < 2 ? {} : { value: highest! - lowest! },
    dp_step: sorted.length < 2 ? {} : { value: largestStep(sorted) },
    n: known(fit?.exponent),
    r2: known(fit?.determination),
    r: known(fit && (slopeRises ? 1 : -1) * Math.sqrt(fit.determination)),
    s_q10: known(fit && 100 * standardErrorOfLogFlow(fit, Math.log(10))),
    height_dT: known(facts.heightTimesDifference),
    wind: known(facts.wind),
    beaufort: known(facts.beaufort),
    gauge_days: known(facts.gaugeDays),
    fan_days: known(facts.fanDays),
    reach_50: beyond(50),
    reach_4: beyond(4),
    reach_pr: beyond(facts.referencePressure),
    n50: known(facts.airChangeRate),
    q50_apart: known(differencePercent(facts.flowAt50, facts.flowAt50Otherwise)),
    dp_min_about: known(lowest),
    dp0_range: baselineRange(sets),
    zeros_dp0: zeros(sets.flat()),
    theta_e: known(facts.outdoorTemperature),
    technique: { value: facts.technique },
    ci_q50: known(facts.halfIntervalAt50 && 100 * facts.halfIntervalAt50),
    ci_qE75: known(facts.halfIntervalAt75),
    method: { value: methodVersion },
  };
}
