import { contribution, type BudgetRow } from "../../core/index";
import type { Budget } from "./budget";
import { budgetRow, type BudgetCells } from "./rows";
import { sourceWords, unitOf, type SourceWords } from "./words";
import type { Settings } from "../settings/settings";

/** Where a row's uncertainty comes from, in words. */
function noteOf({ symbol, label, note }: SourceWords, row: BudgetRow, budget: Budget, settings: Settings): string {
  if (row.contained === true) return "contained in the larger random row";
  const source = [...budget.shared, ...budget.own].find((one) => one.symbol === symbol);
  if (source === undefined)
    return /^(scatter|stated)/.test(symbol) ? "the larger random row counts" : "from the other table";
  const { law } = source;
  const needed = symbol === "o_f" ? "fan pressure at lowest flow" : /^(stack|wind)/.test(symbol) ? label : undefined;
  if (needed !== undefined && settings[needed] === undefined) return `not counted: give "${needed}"`;
  const { size } = budget.quantity;
  const named = symbol === "size" && size ? (`${size} uncertainty` as const) : label;
  if (named === undefined) return note === undefined ? law : `${law}; ${note}`;
  if (settings[named] !== undefined) return `${law}; "${named}" as given`;
  return `${law}; ${note ?? "assumed"}; "${named}" replaces it`;
}

/** A row for every source, those of the direction that the budget does not hold with a contribution of 0. */
export function sourceRows(budget: Budget, settings: Settings): BudgetCells[] {
  const { rows, combination, quantity } = budget;
  const places = new Map(rows.map(({ symbol }, index) => [symbol, index]));
  return sourceWords.map((words) => {
    const { symbol } = words;
    const { unit, inMethod } = unitOf(words, settings);
    const index = places.get(symbol) ?? -1;
    const row = rows[index];
    if (row === undefined) return budgetRow(words.what, symbol, "", unit, "", { contribution: 0, share: 0 });
    const what = symbol === "size" ? (quantity.size ?? words.what) : words.what;
    return budgetRow(what, symbol, row.uncertainty / inMethod, unit, noteOf(words, row, budget, settings), {
      sensitivity: row.sensitivity * inMethod,
      contribution: contribution(row),
      share: combination.shares[index],
      freedom: row.degreesOfFreedom,
    });
  });
}
