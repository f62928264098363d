// Laws that hold whatever the readings are; each is broken by a typical mistake, which its name says.
import fc from "fast-check";
import { expectAgreement } from "../../support/compare";
import { limitsOf, valueOf } from "../../support/sheet";
import type { Cell } from "../../support/sheet";
import { sheetTests } from "../../support/sheet-test";
import type { SheetTest } from "../../support/sheet-test";

const FIXED = { seed: 20261124, numRuns: 60 };

export const ROUNDING = "the same quantity by another way: the roundings differ, the scatter amplifies them";

export type Table = readonly (readonly unknown[])[];

export const estimates = [
  "n",
  "C",
  "r2",
  "C_L",
  "q50",
  "n50",
  "qE50",
  "qF50",
  "q_pr",
  "n_pr",
  "ELA4",
  "AL10",
  "EqLA10",
];

export const withLimits = ["n", "C", "C_L", "q50", "n50", "qE50", "q_pr", "ELA4"];

const scatter = ["s_n", "s_lnC"];

export function expectSame(
  actual: Table,
  expected: Table,
  symbols = estimates,
  factor: (symbol: string) => number = () => 1,
): void {
  for (const symbol of symbols.filter((name) => !scatter.includes(name))) {
    expectAgreement(
      valueOf(actual, symbol),
      factor(symbol) * valueOf(expected, symbol),
      1e-11,
      `${symbol}: ${ROUNDING}`,
    );
  }
  for (const symbol of scatter.filter((name) => symbols === estimates || symbols.includes(name))) {
    // Written flows have a scatter of 1e-3 and more, three of them by chance a hundredth of it; 1e-15 over that.
    expectAgreement(valueOf(actual, symbol), valueOf(expected, symbol), 1e-8, `${symbol}: ${ROUNDING}`);
  }
  for (const symbol of withLimits.filter((name) => symbols.includes(name))) {
    const [one, other] = [limitsOf(actual, symbol), limitsOf(expected, symbol)];
    expectAgreement(one.lower, factor(symbol) * other.lower, 1e-7, `${symbol}, lower: ${ROUNDING}`);
    expectAgreement(one.upper, factor(symbol) * other.upper, 1e-7, `${symbol}, upper: ${ROUNDING}`);
  }
}

export function holds(law: (test: SheetTest) => void): void {
  fc.assert(fc.property(sheetTests, law), FIXED);
}

export function numbersOf(cells: readonly Cell[]): number[] {
  return cells.map(Number);
}
