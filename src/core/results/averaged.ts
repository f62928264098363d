import { directions, type Direction } from "../direction";
import { ensure, missing, requirePositive } from "../errors";
import { mean } from "../numbers";

/** What to do where one direction is missing: some programmes accept it, none by default. */
export const oneDirectionRules = ["refuse", "accept"] as const;

/** What a result is of. */
export const resultDirections = ["both", ...directions] as const;

export type OneDirectionRule = (typeof oneDirectionRules)[number];

/**
 * Mean of the two directions of a derived result (n50, q50, …, not C and n). Repeated runs are averaged within their direction first, and
 * no run is picked.
 * Errors: a direction without a result while `rule` is "refuse", or none at all (missing, saying which); a result not above 0.
 * Source: ISO 9972:2015, average of both directions (from memory).
 * Example: averagedResult({ depressurization: [0.56], pressurization: [0.64] }) → 0.600
 */
export function averagedResult(runs: Record<Direction, readonly number[]>, rule: OneDirectionRule = "refuse"): number {
  for (const direction of directions) {
    for (const run of runs[direction]) requirePositive(run, direction);
  }
  const present = directions.filter((direction) => runs[direction].length > 0);
  const absent = directions.find((direction) => runs[direction].length === 0);
  if (absent !== undefined && (rule === "refuse" || present.length === 0)) {
    throw missing(absent, "noResult");
  }
  const average = mean(present.map((direction) => mean(runs[direction])));
  ensure(Number.isFinite(average), "depressurization", "tooLarge");
  return average;
}
