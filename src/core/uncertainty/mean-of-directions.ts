import { contribution, freedomOf, type BudgetRow } from "./combination";

/** The budget of one run, and its weight in what is made of several. */
export interface WeightedBudget {
  readonly rows: readonly BudgetRow[];
  /** For a mean of relative outputs the run's value over the sum of all, with the runs of one direction averaged first; for a difference of two 1 and −1. */
  readonly weight: number;
}

/**
 * Rows of a weighted sum of runs, such as the mean of two directions. A source that several runs have acts in all of them: its signed contributions are added before anything is
 * squared. What belongs to one run alone goes over with that run's weight; where several runs have such a row it is shown as one, its independent contributions added in squares.
 */
export function rowsOfMean(budgets: readonly WeightedBudget[]): BudgetRow[] {
  const bySymbol = new Map<string, BudgetRow[]>();
  for (const { rows, weight } of budgets) {
    for (const row of rows) {
      const weighted = { ...row, sensitivity: row.sensitivity * weight };
      const alike = bySymbol.get(row.symbol);
      if (alike === undefined) bySymbol.set(row.symbol, [weighted]);
      else alike.push(weighted);
    }
  }
  return [...bySymbol.values()].map((rows) =>
    rows.length === 1 ? rows[0]! : rows[0]!.ofOneRun === true ? addInSquares(rows) : rows.reduce(addSigned),
  );
}

/** One source in two runs. Where the two uncertainties differ the larger is shown, with the sensitivity that gives the common contribution. */
function addSigned(one: BudgetRow, other: BudgetRow): BudgetRow {
  const uncertainty = Math.max(one.uncertainty, other.uncertainty);
  const part = (row: BudgetRow) =>
    row.uncertainty === uncertainty ? row.sensitivity : (row.sensitivity * row.uncertainty) / uncertainty;
  return {
    ...one,
    uncertainty,
    sensitivity: part(one) + part(other),
    degreesOfFreedom: Math.min(one.degreesOfFreedom, other.degreesOfFreedom),
  };
}

/** Rows of single runs as one: the root of their squares, with the degrees of freedom that they have together (JCGM 100:2008, G.4.1). */
function addInSquares(rows: readonly BudgetRow[]): BudgetRow {
  const uncertainty = Math.hypot(...rows.map(contribution));
  return { ...rows[0]!, uncertainty, sensitivity: 1, degreesOfFreedom: freedomOf(uncertainty, rows) };
}
