import { requirePositive } from "../errors";
import { normalProbability } from "../statistics/normal";
import { studentT } from "../statistics/student-t";
import { conformance, wholeDegreesOfFreedom, type Conformance } from "./conformance";
import { conformanceWithPrior, globalRisks, type GlobalRisks, type Prior } from "./prior-risks";
import { verdict, type DecisionRule, type Verdict } from "./verdict";

/** What was known of the quantity before the test, in its own unit: mean and standard deviation of a lognormal distribution. */
export interface QuantityPrior {
  readonly mean: number;
  readonly deviation: number;
}

export interface DecisionTerms {
  readonly rule: DecisionRule;
  /** Above 0; infinite where not given. */
  readonly degreesOfFreedom?: number | undefined;
  readonly prior?: QuantityPrior | undefined;
}

export interface DecisionRisk {
  readonly verdict: Verdict;
  /** Limits of the result at 95 %. */
  readonly lower: number;
  readonly upper: number;
  /** Those that the limits are taken with. */
  readonly degreesOfFreedom: number;
  /** Highest result that passes with this relative uncertainty. */
  readonly acceptanceLimit: number;
  /** From this result alone. */
  readonly conformance: Conformance;
  readonly withPrior?: {
    readonly conformance: Conformance;
    /** Probability that the limit is met, by the prior alone. */
    readonly priorMet: number;
    readonly globalRisks: GlobalRisks;
  };
}

/** The normal distribution of ln q that gives q this mean and deviation: σ² = ln(1 + (s/m)²), μ = ln m − σ²/2. */
function logarithmOf({ mean, deviation }: QuantityPrior): Prior {
  requirePositive(mean, "prior_mean");
  requirePositive(deviation, "prior_deviation");
  const variance = Math.log1p((deviation / mean) ** 2);
  requirePositive(variance, "prior_deviation");
  return { mean: Math.log(mean) - variance / 2, deviation: Math.sqrt(variance) };
}

/**
 * Risks of a decision against an upper limit T on the law of the budget, ln y with standard uncertainty u/y: the rule accepts results up to A = T (plain), T·exp(−U/y) (guarded
 * acceptance) or T·exp(U/y) (guarded rejection), U = t(0.975, ν)·u.
 * Errors: result, u or limit not above 0; degrees of freedom not above 0; mean or deviation of the prior not above 0.
 * Source: JCGM 106:2012 clauses 7 to 9 and annex A, on ln y; ISO/IEC 17025:2017 7.8.6 asks for the rule to be stated.
 */
export function decisionRisk(
  result: number,
  standardUncertainty: number,
  limit: number,
  { rule, degreesOfFreedom = Infinity, prior }: DecisionTerms,
): DecisionRisk {
  requirePositive(standardUncertainty, "standard_uncertainty");
  const alone = conformance(result, standardUncertainty, limit, degreesOfFreedom);
  const freedom = wholeDegreesOfFreedom(degreesOfFreedom);
  const relative = standardUncertainty / result;
  const expanded = studentT(0.95, freedom) * relative;
  const guard = { plain: 0, "guarded acceptance": -expanded, "guarded rejection": expanded }[rule];
  const decided = {
    verdict: verdict(result, limit, { rule, expandedUncertainty: expanded * result }),
    lower: result * Math.exp(-expanded),
    upper: result * Math.exp(expanded),
    degreesOfFreedom: freedom,
    acceptanceLimit: limit * Math.exp(guard),
    conformance: alone,
  };
  if (prior === undefined) return decided;
  const known = logarithmOf(prior);
  const error = { uncertainty: relative, degreesOfFreedom: freedom };
  const edge = Math.log(limit);
  return {
    ...decided,
    withPrior: {
      conformance: conformanceWithPrior(Math.log(result), edge, known, error),
      priorMet: normalProbability((edge - known.mean) / known.deviation),
      globalRisks: globalRisks(edge, edge + guard, known, error),
    },
  };
}
