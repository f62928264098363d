import {
  baselineSources,
  budgetRows,
  combine,
  isAbsolute,
  limitsOf,
  ownSources,
  priorSource,
  rowsOfMean,
  sharedSources,
  type BaselineScatter,
  type BudgetRow,
  type BudgetSources,
  type Combination,
  type Direction,
  type Limits,
  type PreparedTest,
  type TestResult,
} from "../../core/index";
import type { WholeTest } from "../results/whole-test";
import type { BudgetQuantity } from "../settings/labels";
import type { Settings } from "../settings/settings";
import { baselineScatter, baselineSetIn, given, noiseIn, widthsIn, windIn } from "./assumptions";
import { quantityOf, type Quantity } from "./quantity";
import { budgetTest } from "./budget-test";
import { markOf } from "./words";
import { missing } from "../cells/rule-codes";

/** What every budget of one run is made from. */
export interface BudgetInput {
  readonly test: PreparedTest;
  readonly result: TestResult;
  readonly settings: Settings;
  readonly baselines: BaselineScatter;
  readonly sources: BudgetSources;
}

/** The budget of another run as its table shows it. */
export interface RunBudget {
  readonly direction: Direction;
  readonly value: number;
  readonly rows: readonly BudgetRow[];
}

/** The budget of one result, of one run or of the mean of several. */
export interface Budget {
  readonly quantity: Quantity;
  readonly sources: BudgetSources;
  readonly rows: readonly BudgetRow[];
  readonly combination: Combination;
  readonly limits: Limits;
  /** Of the two directions, where there are both. */
  readonly difference?: DirectionDifference | undefined;
}

/** Result of this direction against that of the other: as ln of their ratio, for n as their difference. */
export interface DirectionDifference {
  readonly value: number;
  readonly expanded: number;
}

/** The run as the budget sees it. Errors: those of the settings and of the fit. */
export function budgetInput({ direction, result, readings, baselines, settings }: WholeTest): BudgetInput {
  const scatter = baselineScatter(settings, baselines);
  const test = budgetTest(direction, result, readings, settings, noiseIn(settings, scatter));
  const input = { test, result, settings, baselines: scatter };
  return { ...input, sources: sourcesOf(input) };
}

/** All sources of a run, those of a result that is divided by no size. */
function sourcesOf({ test, result, settings, baselines }: Omit<BudgetInput, "sources">): BudgetSources {
  const mark = markOf(test.direction);
  const isShared = settings["baseline shared"] === "yes";
  const before = baselineSetIn(settings, "before", baselines.before);
  const after = baselines.after && baselineSetIn(settings, "after", baselines.after);
  const baseline = baselineSources(before, after, isShared ? "" : mark);
  const openingsInUse = [...new Set(test.readings.map(({ fan }) => fan.opening))];
  const shared = [
    ...sharedSources(
      widthsIn(settings, result, openingsInUse),
      given(settings, "size degrees of freedom"),
      settings["gauges of one calibration"] === "yes",
    ),
    priorSource(test.fit),
  ];
  const own = ownSources(test, before, after, windIn(settings, result), mark);
  return isShared ? { shared: [...shared, ...baseline], own } : { shared, own: [...baseline, ...own] };
}

/** The same for a result that is divided by a size, which has its own uncertainty. */
function withSize({ sources, settings }: BudgetInput, { size }: Quantity): BudgetSources {
  if (size === undefined) return sources;
  const uncertainty = given(settings, `${size} uncertainty`);
  const shared = sources.shared.map((source) => (source.effect === "size" ? { ...source, uncertainty } : source));
  return { ...sources, shared };
}

/** Undefined where an input of the result is missing. */
export function budgetOf(
  symbol: BudgetQuantity,
  input: BudgetInput,
  others: readonly RunBudget[] = [],
): Budget | undefined {
  const { test, result, settings } = input;
  const { direction } = test;
  const quantity = quantityOf(symbol, result, settings);
  const { value, output } = quantity;
  if (value === undefined) return undefined;
  const sources = withSize(input, quantity);
  const single = { direction, value, rows: budgetRows(test, sources, output, markOf(direction)) };
  const absolute = isAbsolute(output);
  const { mean, rows, difference } = meanOfRuns([single, ...others], absolute, settings.confidence);
  const combination = combine(rows, settings.confidence);
  return { quantity, sources, rows, combination, limits: limitsOf(mean, combination.expanded, absolute), difference };
}

/** The runs of each direction averaged first, then the directions; the first run's direction leads the difference. */
function meanOfRuns(
  runs: readonly [RunBudget, ...RunBudget[]],
  absolute: boolean,
  confidence: number,
): { mean: number; rows: readonly BudgetRow[]; difference: DirectionDifference | undefined } {
  const [{ direction }] = runs;
  const ofThis = runs.filter((run) => run.direction === direction);
  const ofOther = runs.filter((run) => run.direction !== direction);
  const average = (some: readonly RunBudget[]) => some.reduce((sum, { value }) => sum + value, 0) / some.length;
  /** A mean of relative outputs weighs each run by its value, one of n by its number. */
  const weighted = (some: readonly RunBudget[], whole: number, share: number) =>
    some.map(({ rows, value }) => ({ rows, weight: (share / some.length) * (absolute ? 1 : value / whole) }));
  const here = average(ofThis);
  if (ofOther.length === 0) {
    return { mean: here, rows: rowsOfMean(weighted(ofThis, here, 1)), difference: undefined };
  }
  const there = average(ofOther);
  const mean = (here + there) / 2;
  const apart = combine(rowsOfMean([...weighted(ofThis, here, 1), ...weighted(ofOther, there, -1)]), confidence);
  return {
    mean,
    rows: rowsOfMean([...weighted(ofThis, mean, 0.5), ...weighted(ofOther, mean, 0.5)]),
    difference: { value: absolute ? here - there : Math.log(here / there), expanded: apart.expanded },
  };
}

/** The result that the settings ask for; else n50 where a volume is given, else q50. */
export function chosenQuantity(settings: Settings): BudgetQuantity {
  return settings["budget quantity"] ?? (settings.volume === undefined ? "q50" : "n50");
}

/** Errors: the result lacks an input (missing). */
export function chosenBudget(input: BudgetInput, others: readonly RunBudget[]): Budget {
  const symbol = chosenQuantity(input.settings);
  const budget = budgetOf(symbol, input, others);
  if (budget !== undefined) return budget;
  const { size } = quantityOf(symbol, input.result, input.settings);
  const lacking = size !== undefined && input.settings[size] === undefined ? size : "reference pressure";
  throw missing("settings", "settingNeeded", { label: lacking, by: symbol });
}
