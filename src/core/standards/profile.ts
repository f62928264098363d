import type { LeakageAreaDefinition } from "../results/leakage-area";
import type { CheckName } from "./check-names";

/** C: read in a published text. M: from memory, to be checked against one's own copy. "practice": common practice, no source. */
export type Mark = "C" | "M" | "practice";

/** Where a statement of a profile comes from. */
export interface Origin {
  /** The clause, by number where it is known, else by subject. */
  readonly clause: string;
  readonly mark: Mark;
  /** For what is from memory: the words to look for in one's own copy. */
  readonly find?: string | undefined;
}

/** A range that a measured value must keep to, ends included but for `above`. */
export interface Limit extends Origin {
  readonly lower?: number;
  readonly upper?: number;
  /** Where the text has ">": the value itself is outside. */
  readonly above?: number;
  /** Binding: without it the test is not valid. Advisory: the standard says "about", "preferred" or "recommended", or it is the trade's advice. */
  readonly binding: boolean;
  /** The lower limit where the tester states a reason for staying below the usual one. */
  readonly lowerWithReason?: number;
}

/** Directions that a standard asks for. */
export type DirectionRule = "both" | "either" | "depressurization";

type Stated<Value> = Origin & { readonly value: Value };

/** One standard as data: no standard has separate code. */
export interface Profile {
  /** Name with the edition. */
  readonly edition: string;
  /** Number of its clause of the measurement procedure, where it is known. */
  readonly procedure?: string;
  /** What turns C to 20 °C and 101 325 Pa: (ρ/ρ0)^(1−n), and also (μ/μ0)^(2n−1) where the viscosity counts. */
  readonly correction: Stated<"density" | "density and viscosity">;
  readonly technique: Stated<"ordinary" | "weighted">;
  /** Absent where the standard reports no leakage area. */
  readonly leakageArea?: Stated<LeakageAreaDefinition>;
  readonly directions: Stated<DirectionRule> & { readonly binding: boolean };
  /** A check that is absent has no limit in this standard. */
  readonly checks: Readonly<Partial<Record<CheckName, Limit>>>;
  /** Limit of the wind at a weather station, where checks.wind is for the wind near the ground. */
  readonly stationWind?: Limit;
}

type Range = Pick<Limit, "lower" | "upper" | "above" | "lowerWithReason">;

/** Clause and mark; what is from memory names the words to look for. */
type From = readonly [clause: string, mark: "C" | "practice"] | readonly [clause: string, mark: "M", find: string];

function originOf([clause, mark, find]: From): Origin {
  return { clause, mark, find };
}

/** A limit without which the test is not valid. */
export function binding(range: Range, ...from: From): Limit {
  return { ...range, binding: true, ...originOf(from) };
}

/** A limit that asks for a second look. */
export function advisory(range: Range, ...from: From): Limit {
  return { ...range, binding: false, ...originOf(from) };
}

/** A statement with its clause and mark. */
export function stated<const Value>(value: Value, ...from: From): Stated<Value> {
  return { value, ...originOf(from) };
}

const certificate = binding({ lower: 0 }, "calibration of the instruments", "M", "valid calibration");
const inside = advisory({ upper: 1 }, "extrapolation", "practice");

/** What every test is checked for, whatever the standard. */
export const checksOfEveryTest = {
  gauge_days: certificate,
  fan_days: certificate,
  reach_50: inside,
  reach_4: inside,
  reach_pr: inside,
  n50: advisory({ lower: 0.05, upper: 50 }, "plausibility", "practice"),
  q50_apart: advisory({ upper: 10 }, "difference of the directions", "practice"),
  zeros_dp0: advisory({ upper: 0 }, "blank cells among the baseline readings", "practice"),
} satisfies Profile["checks"];
