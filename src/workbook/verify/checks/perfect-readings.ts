import type { Check } from "../review";
import { readResult } from "../../book/tests/entered-runs";

/** Gauges resolve a tenth of a pascal, and wind does the rest: measured readings scatter by some tenths of a per cent. */
const tooSmall = 2e-5;
const leastReadings = 5;

/** Readings that fit their line as only computed figures do. */
export const findPerfectReadings: Check = (review) =>
  review.runs.flatMap((run) => {
    const error = readResult(review, run, "s_n");
    if (error === undefined || error > tooSmall || (readResult(review, run, "count") ?? 0) < leastReadings) return [];
    return [
      {
        kind: "readings implausibly smooth",
        severity: "warning",
        place: review.view.formatArea(run.flows),
        what: `The ${run.direction} readings lie exactly on one line (standard error of n ${error.toExponential(0)}).`,
        why: "Measured readings scatter; these were computed from a line.",
        todo: "Ask for the gauge log.",
      } as const,
    ];
  });
