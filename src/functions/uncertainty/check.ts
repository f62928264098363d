import { agreement, noErrors, simulate, trial } from "../../core/index";
import { noiseIn } from "./assumptions";
import type { Budget, BudgetInput } from "./budget";
import { markOf } from "./words";

/** A Monte Carlo check of a budget; blank where it was not asked for or cannot be given. */
export interface BudgetCheck {
  readonly trials: number | "";
  readonly dropped: number | "";
  readonly lower: number | "";
  readonly upper: number | "";
  readonly outcome: string;
  readonly note: string;
}

const blank = { trials: "", dropped: "", lower: "", upper: "", outcome: "" } as const;

/** Evaluates the whole test anew with every source drawn from its law, as often as the setting asks, and holds its limits against the budget's. */
export function budgetCheck({ test, settings }: BudgetInput, budget: Budget, isMean: boolean): BudgetCheck {
  const { "monte carlo trials": wanted, "monte carlo seed": seed = 1 } = settings;
  if (wanted === undefined) return { ...blank, note: 'off: setting "monte carlo trials", 20000 for a check' };
  if (isMean) return { ...blank, note: "of single directions only: see their own tables" };
  if (test.technique !== "ordinary") return { ...blank, note: "for the ordinary technique only" };
  const trials = Math.floor(wanted);
  const { rows, shared, own, limits, combination, quantity } = budget;
  const { output } = quantity;
  const isStated = rows.some(
    ({ symbol, contained }) => symbol === `stated_${markOf(test.direction)}` && contained !== true,
  );
  const direction = { test, sources: own, random: isStated ? noiseIn(settings) : ("scatter" as const) };
  const nominal = trial(test, noErrors())?.(output) ?? NaN;
  const absolute = output.of === "exponent";
  const { dropped, distributions } = simulate(
    [direction],
    shared,
    [([result]) => (absolute ? result!(output) : limits.value * Math.exp(result!(output) - nominal))],
    { trials, seed, confidence: settings.confidence },
  );
  const found = distributions?.[0];
  if (found === undefined)
    return { ...blank, trials, dropped, note: "no result: more than 0.1 % of the trials could not be evaluated" };
  const uncertainty = combination.standardUncertainty * (absolute ? 1 : limits.value);
  const outcome = agreement(limits, found, uncertainty);
  return { trials, dropped, lower: found.lower, upper: found.upper, outcome, note: "JCGM 101:2008, 8.1" };
}
