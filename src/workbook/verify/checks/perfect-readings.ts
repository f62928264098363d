import type { Check } from "../review";
import { askFunction, findRowOfSymbol } from "../../book/whole-tests";

/** Gauges resolve a tenth of a pascal, and wind does the rest: measured readings scatter by some tenths of a per cent. */
const tooSmall = 2e-5;
const leastReadings = 5;

/** Readings that fit their line as only computed figures do. */
export const findPerfectReadings: Check = ({ view, addIn, tests }) =>
  tests.flatMap((test) => {
    const table = askFunction(view, addIn, "TESTRESULT", test);
    const error = findRowOfSymbol(table, "s_n");
    if (error === undefined || error > tooSmall || (findRowOfSymbol(table, "count") ?? 0) < leastReadings) return [];
    return [
      {
        kind: "readings implausibly smooth",
        severity: "warning",
        place: view.formatArea(test.flows),
        what: `The ${test.direction} readings lie exactly on one line (standard error of n ${error.toExponential(0)}).`,
        why: "Measured readings scatter; these were computed from a line.",
        todo: "Ask for the gauge log.",
      } as const,
    ];
  });
