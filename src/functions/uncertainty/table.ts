import { isAbsolute, type Diagnosis } from "../../core/index";
import type { Budget, BudgetInput } from "./budget";
import type { BudgetCheck } from "./check";
import { budgetQuantities, type BudgetQuantity } from "../settings/budget-quantities";
import { budgetHeadings, budgetRow, type BudgetCells } from "./rows";
import { sourceRows } from "./sources";
import { warningsOf } from "./warnings";
import type { Settings } from "../settings/settings";
import { percent } from "../cells/table";

/** What a budget cannot count because the sheet does not say it. */
function notCounted({ settings, baselines }: BudgetInput): string[] {
  const labels = ["wind speed", "building height", "fan pressure at lowest flow"] as const;
  const lacking: string[] = labels.filter((label) => settings[label] === undefined);
  return baselines[1] === undefined ? [...lacking, "a baseline after the test"] : lacking;
}

/** The combined result; its uncertainty is left blank where none can be given. */
function combinedRows({ way, symbol, budget }: Shown, isKnown: boolean, settings: Settings): BudgetCells[] {
  const { combination, limits, quantity } = budget;
  const { value, lower, upper } = limits;
  const { unit } = quantity;
  const { standardUncertainty, expanded } = combination;
  const absolute = isAbsolute(quantity.output);
  const per = absolute ? 1 : value;
  const known = (cell: number) => (isKnown && cell < Infinity ? cell : undefined);
  const relative = (cell: number) => (absolute ? undefined : known(cell));
  const level = percent(settings.confidence);
  const limit = absolute ? "result ± expanded" : "result·exp(± expanded, relative)";
  return [
    budgetRow("direction", "direction", way),
    budgetRow("result of TESTRESULT", "quantity", symbol, "", 'setting "budget quantity"'),
    budgetRow("result", "result", value, unit, "", { lower: known(lower), upper: known(upper) }),
    budgetRow("combined standard uncertainty, relative", "u_rel", relative(standardUncertainty), "–"),
    budgetRow("combined standard uncertainty", "u_c", known(standardUncertainty * per), unit, "JCGM 100:2008, 5.1.2"),
    budgetRow(
      "effective degrees of freedom",
      "dof_eff",
      known(combination.effectiveDegreesOfFreedom),
      "",
      "JCGM 100:2008, G.4.1; blank: infinite",
    ),
    budgetRow("degrees of freedom used", "dof", known(combination.degreesOfFreedom), "", "truncated"),
    budgetRow(`Student's t, ${level} two-sided`, "t", known(combination.t), "–"),
    budgetRow(`expanded uncertainty, ${level}, relative`, "expanded_rel", relative(expanded), "–"),
    budgetRow(`expanded uncertainty, ${level}`, "expanded", known(expanded * per), unit),
    budgetRow("lower limit", "lower", known(lower), unit, limit),
    budgetRow("upper limit", "upper", known(upper), unit, limit),
  ];
}

function checkRows({ trials, dropped, lower, upper, outcome, note }: BudgetCheck, unit: string): BudgetCells[] {
  return [
    budgetRow("Monte Carlo, trials", "mc_trials", trials, "", note),
    budgetRow("Monte Carlo, trials that could not be evaluated", "mc_dropped", dropped),
    budgetRow("Monte Carlo, lower limit", "mc_lower", lower, unit),
    budgetRow("Monte Carlo, upper limit", "mc_upper", upper, unit),
    budgetRow("Monte Carlo against the limits above", "mc_outcome", outcome),
  ];
}

/** Every result of TESTRESULT with its full interval; in the table of a mean, whose parts are known for one result only, the others are blank. */
function intervalRows(budgets: Shown["intervals"], isKnown: boolean): BudgetCells[] {
  return budgetQuantities.map((symbol) => {
    const budget = budgets.get(symbol);
    const { value, lower, upper } = budget?.limits ?? {};
    const freedom = budget?.combination.degreesOfFreedom;
    const interval = isKnown ? { freedom, lower, upper } : {};
    return budgetRow(`${symbol} with its full interval`, symbol, value, budget?.quantity.unit, "", interval);
  });
}

/** What the table shows. */
export interface Shown {
  readonly way: string;
  readonly symbol: BudgetQuantity;
  readonly budget: Budget;
  readonly diagnosis: Diagnosis;
  readonly check: BudgetCheck;
  readonly intervals: ReadonlyMap<BudgetQuantity, Budget | undefined>;
}

/** The table of fixed shape: sources, combination, Monte Carlo, warnings, intervals. */
export function budgetTable(input: BudgetInput, shown: Shown): BudgetCells[] {
  const { budget, diagnosis } = shown;
  const { settings } = input;
  const isKnown = !diagnosis.tooWindy;
  return [
    ...(settings.headings === "yes" ? [budgetHeadings] : []),
    ...sourceRows(budget, settings),
    ...combinedRows(shown, isKnown, settings),
    ...checkRows(shown.check, budget.quantity.unit),
    ...warningsOf(diagnosis, notCounted(input)).map(([symbol, about, advice]) =>
      budgetRow(about, symbol, advice === undefined ? "ok" : "warning", "", advice),
    ),
    ...intervalRows(shown.intervals, isKnown),
  ];
}
