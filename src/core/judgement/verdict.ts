import { ensure, requirePositive } from "../errors";
import { atMost, roundHalfEven } from "../numbers";
import { studentProbability } from "../statistics/distributions";

/** Decision rules. Plain acceptance is what most programmes use; the guarded ones need the expanded uncertainty. */
export const decisionRules = ["plain", "guarded acceptance", "guarded rejection"] as const;

export type DecisionRule = (typeof decisionRules)[number];

export type Verdict = "pass" | "fail" | "not proven";

interface Decision {
  readonly rule: DecisionRule;
  /** U, in the unit of the result; the guarded rules need it. */
  readonly expandedUncertainty?: number | undefined;
  /** Decimals of the limit where the programme rounds before comparing; only with the plain rule. */
  readonly decimals?: number | undefined;
}

/**
 * Compares a result with an upper limit, a slack of 1e-9 included. The guarded rules go by the limits that the budget shows, y·exp(±U/y).
 * plain: y ≤ T pass; guarded acceptance: upper limit ≤ T pass, lower limit > T fail, else not proven; guarded rejection: lower limit > T fail, else pass.
 * Errors: result or limit not above 0; a guarded rule without U; U below 0; rounding with a guarded rule.
 * Source: JCGM 106:2012 clauses 8.2 and 8.3, on ln y; ASTM E29, absolute and rounding method.
 * Example: verdict((0.56 + 0.64) / 2, 0.6, { rule: "plain" }) → "pass"
 * Example: verdict(0.58, 0.6, { rule: "guarded acceptance", expandedUncertainty: 0.04 }) → "not proven"
 * Example: verdict(0.65, 0.6, { rule: "plain", decimals: 1 }) → "pass"
 */
export function verdict(result: number, limit: number, { rule, expandedUncertainty, decimals }: Decision): Verdict {
  requirePositive(result, "result");
  requirePositive(limit, "target");
  if (expandedUncertainty !== undefined) {
    ensure(expandedUncertainty >= 0 && expandedUncertainty < Infinity, "expanded uncertainty", "zeroOrMore");
  }
  if (rule === "plain") {
    return atMost(decimals === undefined ? result : roundHalfEven(result, decimals), limit) ? "pass" : "fail";
  }
  ensure(expandedUncertainty !== undefined, "expanded uncertainty", "neededWith", { other: rule });
  ensure(decimals === undefined, "decimals", "ruleTakesUnrounded", { rule });
  const factor = Math.exp(expandedUncertainty / result);
  if (!atMost(result / factor, limit)) return "fail";
  return rule === "guarded rejection" || atMost(result * factor, limit) ? "pass" : "not proven";
}

/**
 * Effective degrees of freedom as tables take them: truncated to a whole number, at least 1; infinite stays so. JCGM 100:2008 G.4.1.
 * Example: wholeDegreesOfFreedom(7.9) → 7
 */
export function wholeDegreesOfFreedom(effective: number): number {
  return Math.max(1, Math.floor(effective * (1 + 1e-12)));
}

/** Probabilities that the true value meets a limit, and that it exceeds it; the smaller one keeps its digits. */
export interface Conformance {
  readonly met: number;
  readonly exceeded: number;
}

/**
 * Whether the true value meets an upper limit: F_ν(ln(T/y)/(u/y)), F Student's distribution, normal for infinite ν. With u = 0 it is certain. The law is that of the budget's
 * limits y·exp(±U/y): the probability is 0.975 or more exactly where guarded acceptance with U = t(0.975, ν)·u passes.
 * @param degreesOfFreedom Above 0; truncated to a whole number as for U.
 * Errors: result or limit not above 0; u below 0; degrees of freedom not above 0.
 * Source: JCGM 106:2012 7.2 and 7.3 (normal) on ln y, with Student's distribution where u is based on few observations, JCGM 101:2008 6.4.9.
 */
export function conformance(
  result: number,
  standardUncertainty: number,
  limit: number,
  degreesOfFreedom = Infinity,
): Conformance {
  requirePositive(result, "result");
  requirePositive(limit, "target");
  ensure(standardUncertainty >= 0 && standardUncertainty < Infinity, "standard uncertainty", "zeroOrMore");
  ensure(degreesOfFreedom > 0, "degrees of freedom", "aboveZero");
  const relative = standardUncertainty / result;
  // A quotient below the smallest number is no uncertainty either.
  if (relative === 0) return atMost(result, limit) ? { met: 1, exceeded: 0 } : { met: 0, exceeded: 1 };
  const inHand = Math.log(limit / result) / relative;
  const freedom = wholeDegreesOfFreedom(degreesOfFreedom);
  return { met: studentProbability(inHand, freedom), exceeded: studentProbability(-inHand, freedom) };
}

/**
 * Probability p_c that the true value meets an upper limit. Arguments and errors as `conformance`.
 * Example: conformanceProbability(0.55, 0.03, 0.6) → 0.9447
 */
export function conformanceProbability(
  result: number,
  standardUncertainty: number,
  limit: number,
  degreesOfFreedom = Infinity,
): number {
  return conformance(result, standardUncertainty, limit, degreesOfFreedom).met;
}
