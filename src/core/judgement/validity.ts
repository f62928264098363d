import { checkNames, type CheckName } from "../standards/check-names";
import type { DirectionRule, Limit, Origin, Profile } from "../standards/profile";
import { profiles, type Standard } from "../standards/profiles";
import type { Technique } from "../leakage/curve";
import { atMost } from "./comparison";
import { measuredValues, type Measured, type TestFacts } from "./validity-facts";

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
export interface Allowances {
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

/** What a standard says of one measured value. */
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
 * Whether one direction of a test keeps to what its standard asks, a row a check, always the same rows in the same order. A check is "met" only where it
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
