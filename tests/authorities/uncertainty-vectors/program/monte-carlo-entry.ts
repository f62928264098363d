import type { BudgetInputs } from "./inputs";
import { simulate } from "./monte-carlo";

interface Entry {
  readonly budget: number;
  readonly trials: number;
  readonly seed: number;
}

/** An entry of the group "monte_carlo", from the inputs of a budget; no result where more than 0.1 % of the trials are dropped. */
export function monteCarloEntry(
  { budget, trials, seed }: Entry,
  budgets: readonly { readonly inputs: BudgetInputs }[],
) {
  const { n50, exponents, dropped } = simulate(budgets[budget]!.inputs, trials, seed);
  const average = mean(n50);
  const [lower, upper] = endsOf(n50);
  const result = {
    mean: rounded(average),
    standard_deviation: rounded(Math.sqrt(mean(n50.map((value) => (value - average) ** 2)))),
    lower,
    upper,
    n_lower_upper: exponents.map(endsOf),
    tolerance_relative_to_width: 0.012,
  };
  return { budget, trials, seed, dropped, result: dropped > 0.001 * trials ? null : result };
}

/** Quantiles of 2.5 and 97.5 % (JCGM 101:2008 7.7). */
function endsOf(sorted: Float64Array): number[] {
  return [0.025, 0.975].map((share) => rounded(sorted[Math.floor(share * sorted.length)]!));
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Nine digits, of which the trials settle four. */
function rounded(value: number): number {
  return Number(value.toPrecision(9));
}
