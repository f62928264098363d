import { diagnose, type TestResult } from "../../core/index";
import { inCell } from "../cells/host-error";
import { ofWholeTest, wholeTest } from "../results/whole-test";
import type { Settings } from "../settings/settings";
import { budgetQuantities, type BudgetQuantity } from "../settings/labels";
import { budgetInput, budgetOf, chosenBudget, chosenQuantity } from "./budget";
import { budgetCheck } from "./warnings";
import { noiseIsStated } from "./assumptions";
import { otherRuns, writeRun } from "./other-runs";
import { quantityOf } from "./quantity";
import { budgetTable } from "./table";

/** The symbols of the chosen result, such as n50 and n_pr at 50 Pa: the other direction's table holds contributions to this result only. */
function sameResults(symbol: BudgetQuantity, result: TestResult, settings: Settings): BudgetQuantity[] {
  const meaning = (each: BudgetQuantity) => {
    const { output, size } = quantityOf(each, result, settings);
    return JSON.stringify([output, size]);
  };
  return budgetQuantities.filter((each) => meaning(each) === meaning(symbol));
}

/**
 * Uncertainty of one result of a test, source by source, with its limits. For each source: standard uncertainty,
 * sensitivity, signed contribution, share of the variance, degrees of freedom; then combined and expanded uncertainty,
 * limits, an optional Monte Carlo check, warnings, and every result of TESTRESULT with its full interval. Fetch a value
 * by its symbol in column 2. Whatever the settings do not give is assumed, and its row says so. The random errors take
 * their shape from the noise of a reading (stated, else from the baseline rows, else assumed) and their size from the
 * scatter about the line. For the mean of both directions give the other direction's table as the last argument, with
 * further runs below it: contributions common to all runs are added with their signs before squaring. By hand it is the
 * square root of SUMPRODUCT((w1*K1+w2*K2)^2), where K are the contribution columns and w is each result divided by the
 * sum of both (0.5 each for n).
 * Equation: u_c² = Σ (c_i·u_i)²; U = k·u_c; random errors u² = κ²·Σ[(X_i·u_P/Δp_i)² + (a_i·u_q)²], κ² = χ²/(N − 2).
 * Source: JCGM 100:2008 (budget), JCGM 101:2008 (Monte Carlo).
 * @customfunction UNCERTAINTYBUDGET
 * @param direction "depressurization" or "pressurization".
 * @param pressures Pressure differences as read, Pa, in the order of time, one per row; with a column of times before them the zero follows the time, as in TESTRESULT. 0 beside a blank flow means blank.
 * @param flows Flows, m³/h (SI L/s: L/s, IP: cfm), as in TESTRESULT. Several columns are several fans, added together; type "off" for a fan that is not running.
 * @param baseline_before Baseline readings before the test, Pa, signed: single readings in the order of time, since their scatter counts. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [settings] As for TESTRESULT; "budget quantity" chooses the result, n50 or q50 by default; each assumption of the table has a label there. 0 means blank.
 * @param [include] "yes" or "no" for each row. Blank or 0 means yes.
 * @param [other_direction] The whole table of this function for the other direction and the same result; gives the mean of both. Add tables of further runs below it (VSTACK); runs of one direction are averaged first. Omit for one run.
 * @returns The table, eleven columns.
 * @core uncertainty/budget.ts uncertainty/random-scale.ts uncertainty/baseline-sets.ts uncertainty/monte-carlo.ts
 * @check authorities/uncertainty-budgets.test.ts authorities/baseline-sets.test.ts authorities/uncertainty-monte-carlo.test.ts
 */
export function uncertaintyBudget(
  direction: string,
  pressures: any[][],
  flows: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  settings?: any[][],
  include?: any[][],
  other_direction?: any[][],
): any[][] {
  return inCell(() => {
    const whole = wholeTest([direction, pressures, flows, baseline_before, baseline_after, settings, include]);
    const { direction: way, settings: given, result } = whole;
    return ofWholeTest(() => {
      const input = budgetInput(whole);
      const symbol = chosenQuantity(given);
      const { value: ownValue } = quantityOf(symbol, result, given);
      const others = otherRuns(other_direction, symbol, input, ownValue, given);
      const budget = chosenBudget(input, others);
      const { rows, combination, quantity, sources } = budget;
      const isSingle = others.length === 0;
      return budgetTable(input, {
        way: others.some(({ direction: other }) => other !== way)
          ? "both"
          : isSingle
            ? way
            : `${way}, ${others.length + 1} runs`,
        symbol,
        budget,
        diagnosis: diagnose(input.test, sources, quantity.output, rows, combination, noiseIsStated(given)),
        check: budgetCheck(input, budget, ownValue ?? NaN, others),
        run: isSingle ? writeRun(input.test, sources.own) : "",
        intervals: new Map(
          isSingle
            ? budgetQuantities.map((each) => [each, each === symbol ? budget : budgetOf(each, input)])
            : sameResults(symbol, result, given).map((each) => [each, budget]),
        ),
      });
    });
  });
}
