import type { Exact } from "./decimal";
import { at, exact, sum } from "./decimal";

/** Points with the standard uncertainties of both coordinates and the correlation of their errors. */
export interface Points {
  readonly x: readonly Exact[];
  readonly y: readonly Exact[];
  readonly ux?: readonly Exact[];
  readonly uy?: readonly Exact[];
  readonly rho?: readonly Exact[];
  /** True where ux or uy is not stated but assumed. */
  readonly assumed?: boolean;
}

/** A line y = a + n·x with the variances and the covariance of a and n that are stated, before any enlargement by χ²; with a prior, after it. */
export interface TechniqueLine {
  readonly n: Exact;
  readonly a: Exact;
  readonly varianceN: Exact;
  readonly varianceA: Exact;
  readonly covariance: Exact;
  /** Against the stated uncertainties; absent where there are none. */
  readonly chi2?: Exact;
  /** With a prior of the slope: its share in n, and n without it. */
  readonly prior?: { readonly share: Exact; readonly ofReadings: Exact };
}

/** Line of y on x under weights, from the uncentred normal equations: fifty digits can afford them, and they share nothing with centred sums. */
export function normalEquations({ x, y }: Points, w: readonly Exact[]): { n: Exact; a: Exact; determinant: Exact } {
  const total = (f: (index: number) => Exact) => sum(w.map((weight, index) => weight.times(f(index))));
  const [sw, sx, sy] = [sum(w), total((i) => at(x, i)), total((i) => at(y, i))];
  const sxx = total((i) => at(x, i).pow(2));
  const sxy = total((i) => at(x, i).times(at(y, i)));
  const determinant = sw.times(sxx).minus(sx.pow(2));
  return {
    n: sw.times(sxy).minus(sx.times(sy)).dividedBy(determinant),
    a: sxx.times(sy).minus(sx.times(sxy)).dividedBy(determinant),
    determinant,
  };
}

export function ones(points: Points): Exact[] {
  return points.x.map(() => exact(1));
}

/** Variance of a reading's distance from the line in y. */
function distanceVariance({ ux, uy, rho }: Points, n: Exact, index: number): Exact {
  const y = at(uy ?? [], index);
  const x = ux ? at(ux, index) : exact(0);
  const mixed = rho ? n.times(2).times(at(rho, index)).times(x).times(y) : exact(0);
  return y
    .pow(2)
    .plus(n.pow(2).times(x.pow(2)))
    .minus(mixed);
}

function residual({ x, y }: Points, { n, a }: { n: Exact; a: Exact }, index: number): Exact {
  return at(y, index)
    .minus(a)
    .minus(n.times(at(x, index)));
}

function chiSquare(points: Points, line: { n: Exact; a: Exact }): Exact {
  return sum(
    points.x.map((_, i) =>
      residual(points, line, i)
        .pow(2)
        .dividedBy(distanceVariance(points, line.n, i)),
    ),
  );
}

/** Variances of weighted least squares are the inverse of the normal matrix, times the variance of unit weight. */
function leastSquares(points: Points, w: readonly Exact[], unit: Exact): Omit<TechniqueLine, "chi2"> {
  const { n, a, determinant } = normalEquations(points, w);
  const over = (value: Exact) => value.times(unit).dividedBy(determinant);
  const total = (f: (index: number) => Exact) => sum(w.map((weight, index) => weight.times(f(index))));
  return {
    n,
    a,
    varianceN: over(sum(w)),
    varianceA: over(total((i) => at(points.x, i).pow(2))),
    covariance: over(total((i) => at(points.x, i))).negated(),
  };
}

/** Absolute weights 1/u²(y), or 1/(u²(y) + n²·u²(x)) repeated until n stands in thirty digits: nearly equal pressures leave no more. */
export function weighted(points: Points): TechniqueLine {
  const weights = (n: Exact) => points.x.map((_, i) => exact(1).dividedBy(distanceVariance(points, n, i)));
  let { n } = normalEquations(points, ones(points));
  for (let step = 0; step < 2000; step += 1) {
    const line = leastSquares(points, weights(n), exact(1));
    const change = line.n.minus(n).abs();
    n = line.n;
    if (change.lessThan(n.abs().times("1e-30"))) return { ...line, chi2: chiSquare(points, line) };
  }
  throw new Error("the weights do not settle");
}

/** Relative weights q² = e^(2y): variances from the scatter. */
export function weightedBySquaredFlow(points: Points): TechniqueLine {
  const w = points.y.map((y) => y.times(2).exp());
  const line = leastSquares(points, w, exact(1));
  const scatter = sum(w.map((weight, i) => weight.times(residual(points, line, i).pow(2)))).dividedBy(w.length - 2);
  return leastSquares(points, w, scatter);
}

interface Means {
  readonly x: Exact;
  readonly y: Exact;
  readonly sxx: Exact;
  readonly sxy: Exact;
  readonly syy: Exact;
}

function meansUnder({ x, y }: Points, w: readonly Exact[]): Means {
  const total = (f: (index: number) => Exact) => sum(w.map((weight, index) => weight.times(f(index))));
  const mean = { x: total((i) => at(x, i)).dividedBy(sum(w)), y: total((i) => at(y, i)).dividedBy(sum(w)) };
  const [h, k] = [(i: number) => at(x, i).minus(mean.x), (i: number) => at(y, i).minus(mean.y)];
  return {
    ...mean,
    sxx: total((i) => h(i).pow(2)),
    sxy: total((i) => h(i).times(k(i))),
    syy: total((i) => k(i).pow(2)),
  };
}

export function organicUnder(points: Points, w: readonly Exact[]): { n: Exact; a: Exact } {
  const means = meansUnder(points, w);
  const n = means.syy.dividedBy(means.sxx).sqrt();
  return { n, a: means.y.minus(n.times(means.x)) };
}

/** Line of organic correlation with r taken as it is defined: fifty digits can afford 1 − r. */
export function organic(points: Points): TechniqueLine {
  const line = organicUnder(points, ones(points));
  const { x, sxx, sxy, syy } = meansUnder(points, ones(points));
  const count = points.x.length;
  const r = sxy.dividedBy(sxx.times(syy).sqrt());
  const varianceN = line.n
    .pow(2)
    .times(exact(1).minus(r.pow(2)))
    .dividedBy(count - 2);
  const scatter = syy
    .times(2)
    .times(exact(1).minus(r))
    .dividedBy(count - 2);
  return {
    ...line,
    varianceN,
    varianceA: scatter.dividedBy(count).plus(x.pow(2).times(varianceN)),
    covariance: x.negated().times(varianceN),
  };
}

export function organicWeights({ ux, uy }: Points): Exact[] {
  return (ux ?? []).map((value, i) => exact(1).dividedBy(value.times(at(uy ?? [], i))));
}

/** Weighted line of organic correlation; its variances from numerical derivatives, weights held, rather than from their closed forms. */
export function weightedOrganic(points: Points): TechniqueLine {
  const w = organicWeights(points);
  const line = organicUnder(points, w);
  const moves = derivatives(points, (moved) => organicUnder(moved, w));
  const spread = (f: (move: Derivative) => Exact) =>
    sum(
      moves.map(({ x, y }, i) =>
        f(x)
          .times(at(points.ux ?? [], i).pow(2))
          .plus(f(y).times(at(points.uy ?? [], i).pow(2))),
      ),
    );
  return {
    ...line,
    varianceN: spread(({ n }) => n.pow(2)),
    varianceA: spread(({ a }) => a.pow(2)),
    covariance: spread(({ n, a }) => n.times(a)),
    chi2: chiSquare(points, line),
  };
}

interface Derivative {
  readonly n: Exact;
  readonly a: Exact;
}

/** Central differences of a line by each coordinate of each point, with a step so small that only rounding at fifty digits is left. */
export function derivatives(
  points: Points,
  fit: (points: Points) => { n: Exact; a: Exact },
): { x: Derivative; y: Derivative }[] {
  const step = exact("1e-13");
  const along = (axis: "x" | "y", index: number): Derivative => {
    const moved = (by: Exact) =>
      fit({ ...points, [axis]: points[axis].map((value, i) => (i === index ? value.plus(by) : value)) });
    const [up, down] = [moved(step), moved(step.negated())];
    const over = (high: Exact, low: Exact) => high.minus(low).dividedBy(step.times(2));
    return { n: over(up.n, down.n), a: over(up.a, down.a) };
  };
  return points.x.map((_, index) => ({ x: along("x", index), y: along("y", index) }));
}

/**
 * Errors in both, as the minimum of χ²(n) over the best intercept: the root of its derivative, found by the secant method. York's iteration is not used, only
 * its standard errors by the adjusted points (York et al. 2004).
 */
export function errorsInBothLine(points: Points): { n: Exact; a: Exact } {
  const weights = (n: Exact) => points.x.map((_, i) => exact(1).dividedBy(distanceVariance(points, n, i)));
  const intercept = (n: Exact) => {
    const w = weights(n);
    return sum(w.map((weight, i) => weight.times(at(points.y, i).minus(n.times(at(points.x, i)))))).dividedBy(sum(w));
  };
  const slopeOfChi = (n: Exact) => {
    const a = intercept(n);
    return sum(
      weights(n).map((w, i) => {
        const x = points.ux ? at(points.ux, i) : exact(0);
        const mixed = points.rho
          ? at(points.rho, i)
              .times(x)
              .times(at(points.uy ?? [], i))
          : exact(0);
        const r = residual(points, { n, a }, i);
        const change = w
          .pow(2)
          .times(2)
          .times(n.times(x.pow(2)).minus(mixed))
          .negated();
        return change.times(r.pow(2)).minus(w.times(2).times(r).times(at(points.x, i)));
      }),
    );
  };
  let before = normalEquations(points, ones(points)).n;
  let n = before.times("1.0001").plus("1e-6");
  let valueBefore = slopeOfChi(before);
  for (let step = 0; step < 200; step += 1) {
    const value = slopeOfChi(n);
    if (value.equals(valueBefore)) return { n, a: intercept(n) };
    const next = n.minus(value.times(n.minus(before)).dividedBy(value.minus(valueBefore)));
    [before, valueBefore, n] = [n, value, next];
    if (n.minus(before).abs().lessThan(n.abs().times("1e-42"))) return { n, a: intercept(n) };
  }
  throw new Error("the minimum of χ² was not found");
}

export function errorsInBoth(points: Points): TechniqueLine {
  const line = errorsInBothLine(points);
  const { n } = line;
  const w = points.x.map((_, i) => exact(1).dividedBy(distanceVariance(points, n, i)));
  const total = sum(w);
  const mean = (values: readonly Exact[]) => sum(w.map((weight, i) => weight.times(at(values, i)))).dividedBy(total);
  const [meanX, meanY] = [mean(points.x), mean(points.y)];
  const adjusted = points.x.map((x, i) => {
    const [h, k] = [x.minus(meanX), at(points.y, i).minus(meanY)];
    const [ux, uy] = [points.ux ? at(points.ux, i) : exact(0), at(points.uy ?? [], i)];
    const mixed = points.rho ? at(points.rho, i).times(ux).times(uy) : exact(0);
    const shift = h
      .times(uy.pow(2))
      .plus(n.times(k).times(ux.pow(2)))
      .minus(n.times(h).plus(k).times(mixed));
    return meanX.plus(at(w, i).times(shift));
  });
  const centre = mean(adjusted);
  const varianceN = exact(1).dividedBy(sum(w.map((weight, i) => weight.times(at(adjusted, i).minus(centre).pow(2)))));
  return {
    ...line,
    varianceN,
    varianceA: exact(1).dividedBy(total).plus(centre.pow(2).times(varianceN)),
    covariance: centre.negated().times(varianceN),
    chi2: chiSquare(points, line),
  };
}

/** What is expected of a slope before any reading. */
export interface Prior {
  readonly mean: Exact;
  readonly deviation: Exact;
}

/** The exponents of houses. */
const houses: Prior = { mean: exact(0.65), deviation: exact(0.057) };

/** What is assumed where nothing is stated: 1 Pa and 1 % of the flow; 0.5 % beside a stated pressure. */
export function withAssumed(points: Points): Points {
  const { x, ux, uy, assumed = ux === undefined || uy === undefined } = points;
  return {
    ...points,
    ux: ux ?? x.map((value) => value.negated().exp()),
    uy: uy ?? x.map(() => exact(ux === undefined ? 0.01 : 0.005)),
    assumed,
  };
}

/**
 * Weighted line with a prior of the slope: the prior is one more row of the normal equations, which are solved by Cramer's rule, and the variances are the inverse
 * of their matrix. Weights as effective weights, 1/κ² times; κ² from the scatter about the line without the prior, not below 1 where everything is stated.
 * The slope is found by the secant method rather than by repetition.
 */
export function expectedExponent(given: Points, { mean, deviation }: Prior = houses): TechniqueLine {
  const points = withAssumed(given);
  const isStated = points.assumed === false;
  const under = (n: Exact) => {
    const w = points.x.map((_, i) => exact(1).dividedBy(distanceVariance(points, n, i)));
    const own = normalEquations(points, w);
    const chi2 = sum(w.map((weight, i) => weight.times(residual(points, own, i).pow(2))));
    const scatter = chi2.dividedBy(w.length - 2);
    const unit = isStated && scatter.lessThan(1) ? exact(1) : scatter;
    const total = (f: (index: number) => Exact) => sum(w.map((weight, i) => weight.times(f(i)))).dividedBy(unit);
    const known = exact(1).dividedBy(deviation.pow(2));
    const [a11, a12] = [total(() => exact(1)), total((i) => at(points.x, i))];
    const a22 = total((i) => at(points.x, i).pow(2)).plus(known);
    const b1 = total((i) => at(points.y, i));
    const b2 = total((i) => at(points.x, i).times(at(points.y, i))).plus(mean.times(known));
    const determinant = a11.times(a22).minus(a12.pow(2));
    return {
      n: a11.times(b2).minus(a12.times(b1)).dividedBy(determinant),
      a: b1.times(a22).minus(a12.times(b2)).dividedBy(determinant),
      varianceN: a11.dividedBy(determinant),
      varianceA: a22.dividedBy(determinant),
      covariance: a12.negated().dividedBy(determinant),
      ...(isStated && { chi2 }),
      prior: { share: known.times(a11).dividedBy(determinant), ofReadings: own.n },
    };
  };
  return under(fixedPoint((n) => under(n).n, mean));
}

/** Where a function gives back its argument, to thirty digits, by the secant method. */
function fixedPoint(step: (value: Exact) => Exact, start: Exact): Exact {
  let [before, value] = [start, step(start)];
  let missBefore = value.minus(before);
  for (let count = 0; count < 200; count += 1) {
    const miss = step(value).minus(value);
    if (miss.abs().lessThan(value.abs().times("1e-30")) || miss.equals(missBefore)) return value;
    const next = value.minus(miss.times(value.minus(before)).dividedBy(miss.minus(missBefore)));
    [before, missBefore, value] = [value, miss, next];
  }
  throw new Error("no fixed point was found");
}
