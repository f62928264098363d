import type { BudgetRow } from "./combination";

/**
 * Rows of the mean of two directions: a row that both have acts in both, so its signed contributions are added before anything is squared; what one
 * direction has alone goes over with that direction's weight.
 * @param weights Share of each direction in the sum, q/Σq for relative outputs, ½ each for n.
 */
export function rowsOfMean(
  first: readonly BudgetRow[],
  second: readonly BudgetRow[],
  weights: readonly [number, number],
): BudgetRow[] {
  const weighted = (row: BudgetRow, weight: number): BudgetRow => ({ ...row, sensitivity: row.sensitivity * weight });
  const others = new Map(second.map((row) => [row.symbol, weighted(row, weights[1])]));
  const merged = first.map((row) => {
    const [one, other] = [weighted(row, weights[0]), others.get(row.symbol)];
    if (other === undefined) return one;
    others.delete(row.symbol);
    return together(one, other);
  });
  return [...merged, ...others.values()];
}

/** One source in both directions. Where the two uncertainties differ the larger is shown, with the sensitivity that gives the common contribution. */
function together(one: BudgetRow, other: BudgetRow): BudgetRow {
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
