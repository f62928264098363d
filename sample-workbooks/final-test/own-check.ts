import type { RunPlaces, Runs } from "./direction";

/** A condition that no standard's table of checks holds: it belongs to this workbook or to the criterion. */
export interface Condition {
  readonly label: string;
  readonly limit: string | { readonly formula: string };
  /** What stands under the two directions, formulas. */
  readonly shown: readonly [string, string?];
  readonly format?: string;
  /** The outcome, a formula on the two cells. */
  readonly outcome: (left: string, right: string) => string;
  readonly basis: string;
}

/** A word for each direction: `bad` where it holds for one of its runs, `good` where it has readings, else blank. */
export function worded(runs: Runs, isBad: (run: RunPlaces) => string, good: string, bad: string): [string, string] {
  const of = (first: RunPlaces, second: RunPlaces) => {
    const made = [first, second].map((run) => `COUNTA(${run.readings})>0`);
    const failed = [first, second].map((run, index) => `AND(${made[index]},${isBad(run)})`);
    return `IF(OR(${failed.join(",")}),"${bad}",IF(OR(${made.join(",")}),"${good}",""))`;
  };
  return [of(runs[0], runs[1]), of(runs[2], runs[3])];
}

/** What each direction shows at least or at most among its runs; blank while it has no result. */
export function extreme(runs: Runs, pick: "MIN" | "MAX", cell: (run: RunPlaces) => string): [string, string] {
  const of = (first: RunPlaces, second: RunPlaces) => {
    const both = [first, second].map((run) => `IFERROR(ABS(${cell(run)}),"")`);
    const [one = "", two = ""] = both;
    return `IF(COUNTA(${first.readings},${second.readings})=0,"",IF(ISNUMBER(${one}),IF(ISNUMBER(${two}),${pick}(${one},${two}),${one}),${two}))`;
  };
  return [of(runs[0], runs[1]), of(runs[2], runs[3])];
}

/** "met", unless one of the two cells holds the word. */
export const anyOf = (word: string, missing: string) => (left: string, right: string) =>
  `IF(COUNTIF(${left}:${right},"${word}")>0,"${missing}","met")`;

/** A formula: any run holds a result. */
export function anyResult(runs: Runs): string {
  return `OR(${runs.map(({ wholeTest }) => `ISNUMBER(${wholeTest.value("q50")})`).join(",")})`;
}
