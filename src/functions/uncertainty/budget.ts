import {
  baselineSet,
  budgetRows,
  combine,
  isAbsolute,
  limitsOf,
  MethodError,
  ownSources,
  rowsOfMean,
  sharedSources,
  type BudgetRow,
  type Combination,
  type Limits,
  type PreparedTest,
  type Source,
  type TestResult,
} from "../../core/index";
import { given, noiseIn, widthsIn, windIn } from "./assumptions";
import type { OtherBudget } from "./other";
import type { BudgetQuantity } from "../settings/budget-quantities";
import { quantityOf, type Quantity } from "./quantity";
import { markOf } from "./words";
import type { Settings } from "../settings/settings";

/** What every budget of one direction is made from. */
export interface BudgetInput {
  readonly test: PreparedTest;
  readonly result: TestResult;
  readonly settings: Settings;
  readonly baselines: readonly [before: readonly number[], after?: readonly number[]];
}

/** The budget of one result, of one direction or of the mean of both. */
export interface Budget {
  readonly quantity: Quantity;
  readonly shared: readonly Source[];
  readonly own: readonly Source[];
  readonly rows: readonly BudgetRow[];
  readonly combination: Combination;
  readonly limits: Limits;
}

/** Undefined where an input of the result is missing. */
export function budgetOf(symbol: BudgetQuantity, input: BudgetInput, other?: OtherBudget): Budget | undefined {
  const { test, result, settings, baselines } = input;
  const quantity = quantityOf(symbol, result, settings);
  const { value, output } = quantity;
  if (value === undefined) return undefined;
  const mark = markOf(test.direction);
  const stated = settings["baseline uncertainty"];
  const set = (readings: readonly number[]) =>
    stated === undefined
      ? baselineSet(readings, given(settings, "gauge resolution"), given(settings, "baseline uncertainty"))
      : { uncertainty: stated, degreesOfFreedom: settings["baseline degrees of freedom"] ?? Infinity };
  const [before, after] = baselines;
  const shared = sharedSources(
    widthsIn(settings, result, quantity),
    given(settings, "size degrees of freedom"),
    settings["gauges of one calibration"] === "yes",
  );
  const own = ownSources(test, set(before), after && set(after), windIn(settings, result), mark);
  const single = budgetRows(test, [...shared, ...own], output, noiseIn(settings), mark);
  const absolute = isAbsolute(output);
  const both = other && value + other.value;
  const weights =
    both !== undefined && !absolute ? ([value / both, other!.value / both] as const) : ([0.5, 0.5] as const);
  const rows = other ? rowsOfMean(single, other.rows, weights) : single;
  const combination = combine(rows, settings.confidence);
  return {
    quantity,
    shared,
    own,
    rows,
    combination,
    limits: limitsOf(both === undefined ? value : both / 2, combination, absolute),
  };
}

/** The result that the settings ask for; else n50 where a volume is given, else q50. */
export function chosenQuantity(settings: Settings): BudgetQuantity {
  return settings["budget quantity"] ?? (settings.volume === undefined ? "q50" : "n50");
}

/** Errors: the result lacks an input (missing). */
export function chosenBudget(input: BudgetInput, other?: OtherBudget): Budget {
  const symbol = chosenQuantity(input.settings);
  const budget = budgetOf(symbol, input, other);
  if (budget !== undefined) return budget;
  const { size } = quantityOf(symbol, input.result, input.settings);
  const lacking = size !== undefined && input.settings[size] === undefined ? size : "reference pressure";
  throw new MethodError("missing", "settings", `"${lacking}" is not given yet; ${symbol} needs it`);
}
