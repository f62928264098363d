import { decisionRisk as riskOf, decisionRules, type DecisionRisk, type DecisionRule } from "../../core/index";
import { bothOrNone, choice, wantsHeadings } from "../cells/cells";
import { oneDegreesOfFreedom } from "../leakage/fit";
import { inCell } from "../cells/host-error";
import { oneNumber, oneOptionalNumber } from "../cells/spread";
import { row, table, type TableRow } from "../cells/table";

/** Mean and deviation of the prior, or none. Errors: one of them without the other (missing). */
function priorIn(mean: unknown, deviation: unknown): { mean: number; deviation: number } | undefined {
  const names = ["prior_mean", "prior_deviation"] as const;
  const prior = bothOrNone(
    oneOptionalNumber(mean, names[0]),
    names[0],
    oneOptionalNumber(deviation, names[1]),
    names[1],
  );
  return prior && { mean: prior[0], deviation: prior[1] };
}

/** The text in place of the source, in a row that stays blank. */
const noPrior = "blank: prior_mean and prior_deviation are not given";

function riskRows(risk: DecisionRisk, result: number, limit: number, rule: DecisionRule): TableRow[] {
  const { verdict, lower, upper, degreesOfFreedom, acceptanceLimit, conformance, withPrior } = risk;
  const prior = (what: string, symbol: string, value: number | undefined, source: string) =>
    row(what, symbol, value, "–", withPrior === undefined ? noPrior : source);
  /** A risk of one decision, which has no value where another one is taken. */
  const specific = (decision: "pass" | "fail", symbol: string, of: "met" | "exceeded"): TableRow[] => {
    const isTaken = verdict === decision;
    const name = `specific ${decision === "pass" ? "consumer" : "producer"}'s risk: this ${decision} is wrong`;
    const source = isTaken ? "JCGM 106:2012 9.3" : `blank: the verdict is "${verdict}"`;
    const ofPrior = isTaken ? withPrior?.conformance[of] : undefined;
    return [
      row(`${name}, from this result alone`, symbol, isTaken ? conformance[of] : undefined, "–", source),
      prior(`${name}, with the prior`, `${symbol}_prior`, ofPrior, source),
    ];
  };
  const overPrior = "JCGM 106:2012 9.5, over the prior, for this rule and relative uncertainty";
  return [
    row("verdict under the rule", "verdict", verdict, "", `${rule}; the report states it: ISO/IEC 17025:2017 7.8.6`),
    row("result, limits at 95 %", "result", { value: result, lower, upper }, "", "result·exp(±t·u/result)"),
    row("limit", "target", limit, "", "given"),
    row("acceptance limit: the highest result that passes", "A", acceptanceLimit, "", "JCGM 106:2012 8"),
    row("guard band, limit less acceptance limit", "w", limit - acceptanceLimit, "", "JCGM 106:2012 8.3"),
    row("degrees of freedom used", "dof", degreesOfFreedom === Infinity ? "infinite" : degreesOfFreedom),
    row("probability of conformance, from this result alone", "p_c", conformance.met, "–", "JCGM 106:2012 7.2"),
    prior(
      "probability of conformance, with the prior",
      "p_c_prior",
      withPrior?.conformance.met,
      "JCGM 106:2012 7, annex A",
    ),
    prior(
      "probability of conformance, by the prior alone",
      "p_prior",
      withPrior?.priorMet,
      "share of the prior at or below the limit",
    ),
    ...specific("pass", "R_C_spec", "exceeded"),
    ...specific("fail", "R_P_spec", "met"),
    prior("global consumer's risk: exceeds the limit and passes", "R_C", withPrior?.globalRisks.consumer, overPrior),
    prior(
      "global producer's risk: meets the limit and does not pass",
      "R_P",
      withPrior?.globalRisks.producer,
      overPrior,
    ),
  ];
}

/**
 * Risks of a wrong decision on a result against an upper limit, for this result and for all houses of a prior. Fifteen
 * rows: verdict under the rule, acceptance limit and guard band; probability of conformance without and with a prior;
 * the specific risk that this pass (consumer's) or this fail (producer's) is wrong; the global risks of the rule over
 * all houses of the prior. Without a prior, its rows are blank and say so. As for the limits of UNCERTAINTYBUDGET,
 * ln(result) has the standard uncertainty u/result. The prior is a programme's population, or a forecast from a test
 * during construction, with the mean m and standard deviation s of the quantity itself: lognormal, σ² = ln(1 + (s/m)²),
 * μ = ln m − σ²/2. It must not be based on this result; a test with the same device shares its calibration.
 * Equation: R_C = P(true > target, result ≤ A); R_P = P(true ≤ target, result > A); A = target·exp(∓t·u/result) for the
 * guarded rules.
 * Source: JCGM 106:2012 7 to 9 and annex A, on the logarithm of the result; ISO/IEC 17025:2017 7.8.6 for stating the
 * rule (clauses: check against your own copy).
 * @customfunction DECISIONRISK
 * @param result The result, such as n50. 0 means blank.
 * @param standard_uncertainty u of the result (not expanded), in the same unit: row "u_c" of UNCERTAINTYBUDGET. 0 means blank.
 * @param target The upper limit, in the same unit. 0 means blank.
 * @param [prior_mean] Mean of the quantity before this test, in the same unit. 0 means blank.
 * @param [prior_deviation] Its standard deviation, in the same unit. 0 means blank.
 * @param [rule] "plain" (default), "guarded acceptance" or "guarded rejection", with U = t·u at 95 %.
 * @param [degrees_of_freedom] Effective degrees of freedom of u, truncated to a whole number: row "dof" of UNCERTAINTYBUDGET. "infinite", 0 or blank: infinite.
 * @param [headings] "yes" puts a heading row above the table.
 * @returns The table.
 * @core judgement/decision-risk.ts
 * @check authorities/decision-risk.test.ts
 */
export function decisionRisk(
  result: any[][],
  standard_uncertainty: any[][],
  target: any[][],
  prior_mean?: any[][],
  prior_deviation?: any[][],
  rule?: string | null,
  degrees_of_freedom?: any[][],
  headings?: string | null,
): any[][] {
  return inCell(() => {
    const [y, u] = [oneNumber(result, "result"), oneNumber(standard_uncertainty, "standard_uncertainty")];
    const limit = oneNumber(target, "target");
    const named = choice(rule, decisionRules, "rule", "plain");
    const risk = riskOf(y, u, limit, {
      rule: named,
      degreesOfFreedom: oneDegreesOfFreedom(degrees_of_freedom, "degrees_of_freedom"),
      prior: priorIn(prior_mean, prior_deviation),
    });
    return table(riskRows(risk, y, limit, named), wantsHeadings(headings));
  });
}
