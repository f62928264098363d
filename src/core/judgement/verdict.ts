import { ensure, requirePositive } from "../errors";
import { atMost } from "./comparison";
import { roundHalfEven } from "./rounding";

/** Decision rules. Plain acceptance is what most programmes use; the guarded ones need the expanded uncertainty. */
export const decisionRules = ["plain", "guarded acceptance", "guarded rejection"] as const;

export type DecisionRule = (typeof decisionRules)[number];

export type Verdict = "pass" | "fail" | "not proven";

export interface Decision {
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
 */
export function verdict(result: number, limit: number, { rule, expandedUncertainty, decimals }: Decision): Verdict {
  requirePositive(result, "result");
  requirePositive(limit, "target");
  if (expandedUncertainty !== undefined) {
    ensure(
      expandedUncertainty >= 0 && expandedUncertainty < Infinity,
      "expanded_uncertainty",
      "0 or more, in the unit of the result",
    );
  }
  if (rule === "plain") {
    return atMost(decimals === undefined ? result : roundHalfEven(result, decimals), limit) ? "pass" : "fail";
  }
  ensure(expandedUncertainty !== undefined, "expanded_uncertainty", () => `the rule "${rule}" needs it`);
  ensure(decimals === undefined, "decimals", `the rule "${rule}" compares unrounded values; leave decimals blank`);
  const factor = Math.exp(expandedUncertainty / result);
  if (!atMost(result / factor, limit)) return "fail";
  return rule === "guarded rejection" || atMost(result * factor, limit) ? "pass" : "not proven";
}
