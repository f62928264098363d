import { MethodError, type BudgetRow } from "../../core/index";
import { isBlank, isOmitted, numberIn, plain, rowsOf } from "../cells/cells";
import { shorten } from "../cells/shorten";
import type { Settings } from "../settings/settings";
import { sourceWords, unitOf } from "./words";

/** The budget of the other direction, as its table stands in the sheet. */
export interface OtherBudget {
  readonly value: number;
  readonly rows: readonly BudgetRow[];
}

const argument = "other_direction";

/**
 * Reads the table of the other direction. Errors: rows that are not there (not a budget's table), a table of the same direction, of another result, of a mean, or
 * one for which no uncertainty could be given.
 */
export function otherBudget(
  cells: unknown,
  direction: string,
  quantity: string,
  settings: Settings,
): OtherBudget | undefined {
  if (isOmitted(cells)) return undefined;
  // The first cell too: a table that is an error holds it there alone.
  const bySymbol = new Map(rowsOf(cells).map((row) => [row.slice(0, 2).map((cell) => plain(cell, argument))[1], row]));
  const cell = (symbol: string, column: number): unknown => {
    const row = bySymbol.get(symbol);
    if (row === undefined || row.length < 9)
      throw new MethodError(
        "invalid",
        argument,
        `the whole table of UNCERTAINTYBUDGET is needed; it has no row "${symbol}"`,
      );
    return plain(row[column], argument);
  };
  const wants = (symbol: string, holds: (value: unknown) => boolean, rule: string) => {
    const value = cell(symbol, 2);
    if (!holds(value)) throw new MethodError("invalid", argument, `${rule} (got ${shorten(String(value))})`);
  };
  wants(
    "direction",
    (value) => value !== direction && value !== "both",
    `the other direction than ${direction} is needed`,
  );
  wants("quantity", (value) => value === quantity, `a budget for ${quantity} is needed`);
  wants("u_c", (value) => typeof value === "number", "no uncertainty can be given for it");
  const rows = sourceWords.flatMap((words): BudgetRow[] => {
    const { symbol } = words;
    const uncertainty = numberIn(cell(symbol, 2), argument);
    if (uncertainty === undefined) return [];
    const { inMethod } = unitOf(words, settings);
    const sensitivity = numberIn(cell(symbol, 4), argument) ?? 0;
    const freedom = cell(symbol, 7);
    const degreesOfFreedom = isBlank(freedom) || freedom === "∞" ? Infinity : (numberIn(freedom, argument) ?? 0);
    if (!(degreesOfFreedom >= 1))
      throw new MethodError("invalid", argument, `row "${symbol}" has no degrees of freedom`);
    const isContained = /^(scatter|stated)_/.test(symbol) && numberIn(cell(symbol, 5), argument) === 0;
    return [
      {
        symbol,
        uncertainty: uncertainty * inMethod,
        sensitivity: sensitivity / inMethod,
        degreesOfFreedom,
        contained: isContained || undefined,
      },
    ];
  });
  const value = numberIn(cell("result", 2), argument) ?? NaN;
  if (!(value > 0 || quantity === "n")) throw new MethodError("invalid", argument, "its result must be above 0");
  return { value, rows };
}
