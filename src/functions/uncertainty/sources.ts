import { contribution, type BudgetRow } from "../../core/index";
import type { Budget, BudgetInput } from "./budget";
import { budgetRow, type BudgetCells } from "./rows";
import { markOf, sourceWords, unitOf, type SourceWords } from "./words";

/** Where the uncertainty of a baseline's mean comes from. */
function noteOfBaseline(when: "before" | "after", { settings, baselines }: BudgetInput): string {
  for (const label of [`baseline ${when} uncertainty`, "baseline uncertainty"] as const) {
    if (settings[label] !== undefined) return `normal; "${label}" as given`;
  }
  const { correlation, [when]: set } = baselines;
  if (set === undefined) return "none was read";
  const rows =
    correlation === undefined
      ? "taken as independent: too few to tell"
      : correlation === 0
        ? "which look independent"
        : `neighbours correlated by ${correlation.toFixed(2)}`;
  return `normal; from its readings, ${rows}; "baseline ${when} uncertainty" replaces it`;
}

/** Where a row's uncertainty comes from, in words. */
function noteOf({ symbol, label, note }: SourceWords, row: BudgetRow, budget: Budget, input: BudgetInput): string {
  const { settings } = input;
  if (row.contained === true) return "for comparison: contained in the row above";
  const { shared, own } = budget.sources;
  const source = [...shared, ...own].find((one) => one.symbol === symbol);
  if (source === undefined) {
    const isOfThis = symbol === `scatter_${markOf(input.test.direction)}`;
    return isOfThis ? "κ times the row below; JCGM 100:2008, 4.2" : "from the other table";
  }
  const { law } = source;
  if (source.effect === "baselineBefore") return noteOfBaseline("before", input);
  if (source.effect === "baselineAfter") return noteOfBaseline("after", input);
  const needed = symbol === "o_f" ? "fan pressure at lowest flow" : /^(stack|wind)/.test(symbol) ? label : undefined;
  if (needed !== undefined && settings[needed] === undefined) return `not counted: give "${needed}"`;
  const { size } = budget.quantity;
  const named = symbol === "size" && size ? (`${size} uncertainty` as const) : label;
  if (named === undefined) return note === undefined ? law : `${law}; ${note}`;
  if (settings[named] !== undefined) return `${law}; "${named}" as given`;
  return `${law}; ${note ?? "assumed"}; "${named}" replaces it`;
}

/** A row for every source, those of the direction that the budget does not hold with a contribution of 0. */
export function sourceRows(budget: Budget, input: BudgetInput): BudgetCells[] {
  const { rows, combination, quantity } = budget;
  const { settings } = input;
  const places = new Map(rows.map(({ symbol }, index) => [symbol, index]));
  return sourceWords.map((words) => {
    const { symbol } = words;
    const { unit, inMethod } = unitOf(words, settings);
    const index = places.get(symbol) ?? -1;
    const row = rows[index];
    if (row === undefined) return budgetRow(words.what, symbol, "", unit, "", { contribution: 0, share: 0 });
    const what = symbol === "size" ? (quantity.size ?? words.what) : words.what;
    return budgetRow(what, symbol, row.uncertainty / inMethod, unit, noteOf(words, row, budget, input), {
      sensitivity: row.sensitivity * inMethod,
      contribution: contribution(row),
      share: combination.shares[index],
      freedom: row.degreesOfFreedom,
    });
  });
}
