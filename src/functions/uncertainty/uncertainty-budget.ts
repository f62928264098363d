import { diagnose } from "../../core/index";
import { inCell } from "../cells/host-error";
import { wholeTest } from "../results/whole-test";
import { asSetting } from "../settings/as-setting";
import { budgetQuantities } from "../settings/budget-quantities";
import { noiseIn, noiseIsStated } from "./assumptions";
import { budgetOf, chosenBudget, chosenQuantity, type BudgetInput } from "./budget";
import { budgetCheck } from "./check";
import { otherBudget } from "./other";
import { budgetTable } from "./table";
import { budgetTest } from "./whole-test";

/**
 * Uncertainty of one result of a test, source by source, down to its limits. Each source: standard uncertainty, sensitivity, signed contribution, share of the variance, degrees of freedom; then combined and
 * expanded uncertainty, limits, an optional Monte Carlo check, warnings, and every result of TESTRESULT with its full interval. Fetch by the symbol in column 2.
 * What the settings do not say is assumed, and the row says so. For the mean of both directions give the other direction's table as the last argument: what
 * both share is added with its sign before squaring. By hand it is the root of SUMPRODUCT((w1*K1+w2*K2)^2), K the contribution columns, w each result over the sum of both (n: 0.5 each).
 * Equation: u_c² = Σ (c_i·u_i)²; U = k·u_c.
 * Source: JCGM 100:2008 (budget), JCGM 101:2008 (Monte Carlo).
 * @customfunction UNCERTAINTYBUDGET
 * @param direction "depressurization" or "pressurization".
 * @param pressures Pressure differences as read, Pa, in the order of time, one a row. 0 beside a blank flow means blank.
 * @param flows Flows, m³/h (SI L/s: L/s, IP: cfm), as in TESTRESULT. Several columns are several fans, added; "off" where a fan rests.
 * @param baseline_before Baseline readings before the test, Pa, signed: single readings, whose scatter counts. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [settings] As for TESTRESULT; "budget quantity" chooses the result, n50 or q50 by default; every assumption of the table has its label there. 0 means blank.
 * @param [include] "yes" or "no" a row. Blank or 0 means yes.
 * @param [other_direction] The whole table of this function for the other direction and the same result; gives the mean of both. Omit for one direction.
 * @returns The table, eleven columns.
 * @core uncertainty/budget.ts uncertainty/monte-carlo.ts
 * @check authorities/uncertainty-budgets.test.ts authorities/uncertainty-monte-carlo.test.ts
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
    const { direction: way, settings: given, readings, baselines, result } = whole;
    try {
      const input: BudgetInput = { result, settings: given, baselines, test: budgetTest(way, result, readings, given) };
      const symbol = chosenQuantity(given);
      const other = otherBudget(other_direction, way, symbol, given);
      const budget = chosenBudget(input, other);
      const { rows, combination, quantity, shared, own } = budget;
      const stated = noiseIsStated(given) ? noiseIn(given) : undefined;
      return budgetTable(input, {
        way: other === undefined ? way : "both",
        symbol,
        budget,
        diagnosis: diagnose(input.test, [...shared, ...own], quantity.output, rows, combination, stated),
        check: budgetCheck(input, budget, other !== undefined),
        intervals: new Map(
          other === undefined ? budgetQuantities.map((each) => [each, budgetOf(each, input)]) : [[symbol, budget]],
        ),
      });
    } catch (error) {
      throw asSetting(error);
    }
  });
}
