import { requirePositive } from "../errors";
import { limitsOf } from "../leakage/curve";
import { normalProbability, studentProbability, studentT } from "../statistics/distributions";
import { integral } from "../statistics/integral";
import {
  conformance,
  type Conformance,
  type DecisionRule,
  verdict,
  type Verdict,
  wholeDegreesOfFreedom,
} from "./verdict";

/** What was known of the quantity before the test, in its own unit: mean and standard deviation of a lognormal distribution. */
interface QuantityPrior {
  readonly mean: number;
  readonly deviation: number;
}

interface DecisionTerms {
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
  requirePositive(mean, "prior mean");
  requirePositive(deviation, "prior deviation");
  const variance = Math.log1p((deviation / mean) ** 2);
  requirePositive(variance, "prior deviation");
  return { mean: Math.log(mean) - variance / 2, deviation: Math.sqrt(variance) };
}

/**
 * Risks of a decision against an upper limit T on the law of the budget, ln y with standard uncertainty u/y: the rule accepts results up to A = T (plain), T·exp(−U/y) (guarded
 * acceptance) or T·exp(U/y) (guarded rejection), U = t(0.975, ν)·u.
 * Errors: result, u or limit not above 0; degrees of freedom not above 0; mean or deviation of the prior not above 0.
 * Source: JCGM 106:2012 clauses 7 to 9 and annex A, on ln y; ISO/IEC 17025:2017 7.8.6 asks for the rule to be stated.
 * Example: decisionRisk(0.55, 0.03, 0.6, { rule: "guarded acceptance" }) → { verdict: "not proven", lower: 0.4942, upper: 0.6121, acceptanceLimit: 0.5392, … }
 */
export function decisionRisk(
  result: number,
  standardUncertainty: number,
  limit: number,
  { rule, degreesOfFreedom = Infinity, prior }: DecisionTerms,
): DecisionRisk {
  requirePositive(standardUncertainty, "standard uncertainty");
  const alone = conformance(result, standardUncertainty, limit, degreesOfFreedom);
  const freedom = wholeDegreesOfFreedom(degreesOfFreedom);
  const relative = standardUncertainty / result;
  const expanded = studentT(0.95, freedom) * relative;
  const guard = { plain: 0, "guarded acceptance": -expanded, "guarded rejection": expanded }[rule];
  const { lower, upper } = limitsOf(result, expanded);
  const decided = {
    verdict: verdict(result, limit, { rule, expandedUncertainty: expanded * result }),
    lower,
    upper,
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

/** What is known about a quantity before it is measured: normal, on the scale of its limit. */
interface Prior {
  readonly mean: number;
  readonly deviation: number;
}

/** The error of a measurement on the same scale: Student's distribution times u, normal for infinite degrees of freedom. */
interface ErrorLaw {
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
}

/** Beyond so many deviations of the prior nothing is left that a double can hold. */
const farthest = 40;

/** Sum of the integrals between two ends, split at points between them where the integrand peaks or bends. */
function inPieces(f: (x: number) => number, from: number, to: number, splits: readonly number[]): number {
  const within = splits.filter((point) => point > from && point < to).sort((a, b) => a - b);
  const points = [from, ...within, to];
  return points.slice(1).reduce((sum, point, index) => sum + integral(f, points[index]!, point), 0);
}

/** Where prior and error peak, and where their product does if both are normal, in deviations of the prior from what was measured; and the ends beyond which nothing counts. */
function scaleOf(measured: number, prior: Prior, error: ErrorLaw, limit: number) {
  const width = error.uncertainty / prior.deviation;
  const offset = (measured - prior.mean) / prior.deviation;
  const edge = (limit - measured) / prior.deviation;
  const peaks = [0, -offset, (-offset * width * width) / (1 + width * width)];
  const ends = [Math.min(...peaks, edge) - farthest, Math.max(...peaks, edge) + farthest] as const;
  return { width, offset, edge, peaks, ends };
}

/**
 * Probability that the true value meets an upper limit, given the measured value and the prior: the product of both laws below the limit, over the whole of it. With a normal error it
 * is Φ((T − m)/s), 1/s² = 1/u² + 1/u0², m = s²·(y/u² + y0/u0²).
 * Source: JCGM 106:2012 clauses 6 and 7, annex A (Bayes' theorem).
 * Example: conformanceWithPrior(0, 1, { mean: 0, deviation: 1 }, { uncertainty: 1, degreesOfFreedom: Infinity }) → { met: 0.92135, exceeded: 0.07865 }
 */
export function conformanceWithPrior(measured: number, limit: number, prior: Prior, error: ErrorLaw): Conformance {
  const { width, offset, edge, peaks, ends } = scaleOf(measured, prior, error, limit);
  const { degreesOfFreedom: freedom } = error;
  const logLaw = (x: number) => {
    const t = x / width;
    const ofError = freedom === Infinity ? (-t * t) / 2 : (-(freedom + 1) / 2) * Math.log1p((t * t) / freedom);
    return ofError - (offset + x) ** 2 / 2;
  };
  // Prior and measurement that contradict each other leave a product too small for a double: it is taken over its largest value.
  const largest = Math.max(...peaks.map(logLaw));
  const product = (x: number) => Math.exp(logLaw(x) - largest);
  const met = inPieces(product, ends[0], edge, peaks);
  const exceeded = inPieces(product, edge, ends[1], peaks);
  return { met: met / (met + exceeded), exceeded: exceeded / (met + exceeded) };
}

/** Probabilities over the prior: to exceed the limit and be accepted (consumer's risk), to meet it and not be accepted (producer's risk). */
interface GlobalRisks {
  readonly consumer: number;
  readonly producer: number;
}

/**
 * Global risks of a rule that accepts a measured value up to an acceptance limit A: R_C = ∫ above T of prior(x)·F((A − x)/u), R_P = ∫ below T of prior(x)·F((x − A)/u).
 * Source: JCGM 106:2012 9.4 and 9.5.
 * Example: globalRisks(1500.2, 1500.18, { mean: 1500, deviation: 0.12 }, { uncertainty: 0.04, degreesOfFreedom: Infinity })
 *   → { consumer: 0.0049, producer: 0.0345 }
 */
export function globalRisks(limit: number, acceptance: number, prior: Prior, error: ErrorLaw): GlobalRisks {
  const { width, offset, edge, peaks, ends } = scaleOf(acceptance, prior, error, limit);
  const density = (x: number) => Math.exp(-((offset + x) ** 2) / 2) / Math.sqrt(2 * Math.PI);
  const tail = (t: number) => studentProbability(t, error.degreesOfFreedom);
  return {
    consumer: inPieces((x) => density(x) * tail(-x / width), edge, ends[1], peaks),
    producer: inPieces((x) => density(x) * tail(x / width), ends[0], edge, peaks),
  };
}
