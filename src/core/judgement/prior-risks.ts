import { integral } from "../statistics/integral";
import { studentProbability } from "../statistics/student-t";
import type { Conformance } from "./conformance";

/** What is known of a quantity before it is measured: normal, on the scale of its limit. */
export interface Prior {
  readonly mean: number;
  readonly deviation: number;
}

/** The error of a measurement on the same scale: Student's distribution times u, normal for infinite degrees of freedom. */
export interface ErrorLaw {
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
export interface GlobalRisks {
  readonly consumer: number;
  readonly producer: number;
}

/**
 * Global risks of a rule that accepts a measured value up to an acceptance limit A: R_C = ∫ above T of prior(x)·F((A − x)/u), R_P = ∫ below T of prior(x)·F((x − A)/u).
 * Source: JCGM 106:2012 9.4 and 9.5.
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
