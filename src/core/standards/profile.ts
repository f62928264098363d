import type { LeakageAreaDefinition } from "../results/leakage-area";

/** What can be checked about one direction of a test, in the order of the work; also the keys of the table, which never change. */
export const checkNames = [
  "direction",
  "count_dp0",
  "dp01+",
  "dp01-",
  "dp02+",
  "dp02-",
  "count",
  "dp_min",
  "dp0_of_min",
  "reading_of_min",
  "dp_max",
  "dp_span",
  "dp_step",
  "n",
  "r2",
  "r",
  "s_q10",
  "height_dT",
  "wind",
  "beaufort",
  "gauge_days",
  "fan_days",
  "reach_50",
  "reach_4",
  "reach_pr",
  "n50",
  "q50_apart",
] as const;

export type CheckName = (typeof checkNames)[number];

/** C: read in a published text. M: from memory, to be checked against one's own copy. "practice": common practice, no source. */
export type Mark = "C" | "M" | "practice";

/** Where a statement of a profile comes from. */
interface Origin {
  /** The clause, by number where it is known, else by subject. */
  readonly clause: string;
  readonly mark: Mark;
}

/** A range that a measured value must keep to, ends included. */
export interface Limit extends Origin {
  readonly lower?: number;
  readonly upper?: number;
  /** Binding: without it the test is not valid. Advisory: the standard says "about", "preferred" or "recommended", or it is the trade's advice. */
  readonly binding: boolean;
  /** The lower limit where the tester states a reason for staying below the usual one. */
  readonly lowerWithReason?: number;
}

/** Directions that a standard asks for. */
export type DirectionRule = "both" | "either" | "depressurization";

type Stated<Value> = Origin & { readonly value: Value };

/** One standard as data: there is no code path of its own for any of them. */
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

type Range = Pick<Limit, "lower" | "upper" | "lowerWithReason">;

/** A limit without which the test is not valid. */
export function binding(range: Range, clause: string, mark: Mark): Limit {
  return { ...range, binding: true, clause, mark };
}

/** A limit that asks for a second look. */
export function advisory(range: Range, clause: string, mark: Mark): Limit {
  return { ...range, binding: false, clause, mark };
}

/** A statement with its clause and mark. */
export function stated<Value>(value: Value, clause: string, mark: Mark): Stated<Value> {
  return { value, clause, mark };
}

const certificate = binding({ lower: 0 }, "calibration of the instruments", "M");
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
} satisfies Profile["checks"];
