import { onSheet } from "../blocks/address";
import { budgetRows } from "../blocks/result-tables";
import { sheets } from "./places";

/** The tables of UNCERTAINTYBUDGET, one below the other on the sheet Uncertainty. */
export const budgetTables = ["mean", "depressurization", "pressurization"] as const;

export type BudgetTable = (typeof budgetTables)[number];

/** The first row of a table; its heads stand in the row above, its title above that. */
export function budgetTop(table: BudgetTable): number {
  return 7 + budgetTables.indexOf(table) * (budgetRows + 4);
}

/** A formula that fetches a cell of a table by its symbol. */
export function inBudget(table: BudgetTable, symbol: string, letter = "K"): string {
  const top = budgetTop(table);
  const column = (letters: string) => onSheet(sheets.uncertainty, `${letters}${top}:${letters}${top + budgetRows - 1}`);
  return `INDEX(${column(letter)},MATCH("${symbol}",${column("J")},0))`;
}
