import { checkNames, type CheckName, type DirectionRule, type Limit, type Profile } from "../standards/profile";
import { profiles, type Standard } from "../standards/profiles";
import { atMost } from "./comparison";
import { measuredValues, type Measured, type TestFacts } from "./validity-facts";

/** Outcome of a check; blank where the standard has no limit. */
export type Outcome = "met" | "not met" | "cannot be judged" | "";

/** One check of one direction. */
export interface Check {
  readonly name: CheckName;
  readonly measured: number | string | undefined;
  /** The range to keep to, or the directions asked for; absent where the standard has none. */
  readonly limit: Limit | DirectionRule | undefined;
  readonly outcome: Outcome;
  readonly binding: boolean;
  readonly clause: string;
  readonly mark: Limit["mark"] | undefined;
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
function outcomeOf({ value, partial }: Measured, { lower, upper }: Pick<Limit, "lower" | "upper">): Outcome {
  if (typeof value !== "number") return "cannot be judged";
  const kept = (lower === undefined || atMost(lower, value)) && (upper === undefined || atMost(value, upper));
  if (!kept) return "not met";
  return partial === true ? "cannot be judged" : "met";
}

/** Both directions are known to be there where the flow of the other one is given; a rule that names one direction looks at this one alone. */
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

/**
 * Whether one direction of a test keeps to what its standard asks, a row a check, always the same rows in the same order. A check is "met" only where it
 * was truly judged; a missing input leaves it "cannot be judged"; a check that the standard does not have is blank.
 * Source: the profiles of core/standards, each limit with its clause and mark.
 */
export function validityChecks(facts: TestFacts, standard: Standard, allowances: Allowances = {}): Check[] {
  const profile = profiles[standard];
  const measured = measuredValues(facts);
  return checkNames.map((name): Check => {
    const one = measured[name];
    if (name === "direction") {
      const { value, binding, clause, mark } = profile.directions;
      return {
        name,
        measured: one.value,
        limit: value,
        outcome: outcomeOfDirection(facts, value),
        binding,
        clause,
        mark,
      };
    }
    const limit = limitOf(name, profile, allowances);
    const unplaced = name === "wind" && !windIsJudged(profile, allowances);
    return {
      name,
      measured: one.value,
      limit,
      outcome: limit === undefined ? "" : unplaced ? "cannot be judged" : outcomeOf(one, limit),
      binding: limit?.binding ?? false,
      clause: limit?.clause ?? "",
      mark: limit?.mark,
    };
  });
}

/** A wind is judged only by a limit for the place where it was measured. */
function windIsJudged({ stationWind }: Profile, { windPlace }: Allowances): boolean {
  return windPlace === "near the ground" || (windPlace === "weather station" && stationWind !== undefined);
}
