import type { Exact } from "./decimal";
import { at, exact, mean, sum } from "./decimal";
import { studentQuantile } from "./student";

export interface Interval {
  readonly value: Exact;
  readonly lower: Exact;
  readonly upper: Exact;
}

export interface OrdinaryFit {
  readonly count: number;
  readonly n: Exact;
  readonly lnC: Exact;
  readonly C: Exact;
  readonly r2: Exact;
  readonly standardErrorN: Exact;
  readonly standardErrorLnC: Exact;
  readonly residualDeviation: Exact;
  readonly t: Exact;
  readonly meanX: Exact;
  readonly spreadX: Exact;
}

/** Straight line y = a + n·x by ordinary least squares, with the names of the leakage curve. */
export function fitLine(x: readonly Exact[], y: readonly Exact[], confidence: Exact): OrdinaryFit {
  const count = x.length;
  const [meanX, meanY] = [mean(x), mean(y)];
  const h = x.map((value) => value.minus(meanX));
  const k = y.map((value) => value.minus(meanY));
  const spreadX = sum(h.map((value) => value.pow(2)));
  const spreadY = sum(k.map((value) => value.pow(2)));
  const product = sum(h.map((value, index) => value.times(at(k, index))));
  const n = product.dividedBy(spreadX);
  const residuals = sum(h.map((value, index) => at(k, index).minus(n.times(value)).pow(2)));
  const residualDeviation = residuals.dividedBy(count - 2).sqrt();
  const standardErrorN = residualDeviation.dividedBy(spreadX.sqrt());
  const squares = sum(x.map((value) => value.pow(2)));
  const lnC = meanY.minus(n.times(meanX));
  return {
    count,
    n,
    lnC,
    C: lnC.exp(),
    r2: spreadY.isZero() ? exact(0) : product.pow(2).dividedBy(spreadX.times(spreadY)),
    standardErrorN,
    standardErrorLnC: standardErrorN.times(squares.dividedBy(count).sqrt()),
    residualDeviation,
    t: studentQuantile(count - 2, confidence),
    meanX,
    spreadX,
  };
}

/** The air leakage curve q = C·Δp^n from induced pressures and flows, both positive. */
export function fitLeakage(pressures: readonly Exact[], flows: readonly Exact[], confidence: Exact): OrdinaryFit {
  return fitLine(
    pressures.map((pressure) => pressure.ln()),
    flows.map((flow) => flow.ln()),
    confidence,
  );
}

/** Standard error of the fitted line at an abscissa: s_n·√((N − 1)/N·S_x² + (x − x̄)²). */
export function standardErrorAt(fit: OrdinaryFit, abscissa: Exact): Exact {
  return fit.standardErrorN.times(fit.spreadX.dividedBy(fit.count).plus(abscissa.minus(fit.meanX).pow(2)).sqrt());
}

/** Limits of a quantity that is normal in its logarithm. */
export function logarithmicLimits(value: Exact, halfWidth: Exact): Interval {
  return { value, lower: value.times(halfWidth.negated().exp()), upper: value.times(halfWidth.exp()) };
}

export function limitsOfN(fit: OrdinaryFit): Interval {
  const halfWidth = fit.t.times(fit.standardErrorN);
  return { value: fit.n, lower: fit.n.minus(halfWidth), upper: fit.n.plus(halfWidth) };
}

export function limitsOfC(fit: OrdinaryFit): Interval {
  return logarithmicLimits(fit.C, fit.t.times(fit.standardErrorLnC));
}

/** Flow at a pressure under the conditions of the test, with its limits. */
export function flowAt(fit: OrdinaryFit, pressure: Exact): Interval {
  const x = pressure.ln();
  return logarithmicLimits(fit.lnC.plus(fit.n.times(x)).exp(), fit.t.times(standardErrorAt(fit, x)));
}
