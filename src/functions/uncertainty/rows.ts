/** Cells that a row may leave out; what is absent is blank, and infinite degrees of freedom are ∞. */
interface MoreCells {
  readonly sensitivity?: number | undefined;
  readonly contribution?: number | undefined;
  readonly share?: number | undefined;
  readonly freedom?: number | undefined;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
}

export type BudgetCells = (number | string)[];

export const budgetHeadings: BudgetCells = [
  ...["source", "symbol", "standard uncertainty or value", "unit", "sensitivity", "contribution"],
  ...["share", "degrees of freedom", "lower", "upper", "note"],
];

/** One row of the table, eleven cells. */
export function budgetRow(
  what: string,
  symbol: string,
  value: number | string = "",
  unit = "",
  note = "",
  more: MoreCells = {},
): BudgetCells {
  const { sensitivity = "", contribution = "", share = "", freedom = "", lower = "", upper = "" } = more;
  const degrees = freedom === Infinity ? "∞" : freedom;
  return [what, symbol, value, unit, sensitivity, contribution, share, degrees, lower, upper, note];
}
