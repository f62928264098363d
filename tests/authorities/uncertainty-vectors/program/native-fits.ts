import type { Technique } from "./inputs";

/** Logarithms of the readings in doubles; the uncertainties are those stated, the weights' own. */
export interface NativePoints {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly ux: readonly number[] | undefined;
  readonly uy: readonly number[] | undefined;
}

interface Moments {
  readonly x: number;
  readonly y: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

type Weight = (index: number) => number;

function moments({ x, y }: NativePoints, weight: Weight): Moments {
  let [w, wx, wy] = [0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    w += weight(i);
    wx += weight(i) * x[i]!;
    wy += weight(i) * y[i]!;
  }
  const [meanX, meanY] = [wx / w, wy / w];
  let [xx, xy, yy] = [0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    const [h, k] = [x[i]! - meanX, y[i]! - meanY];
    xx += weight(i) * h * h;
    xy += weight(i) * h * k;
    yy += weight(i) * k * k;
  }
  return { x: meanX, y: meanY, xx, xy, yy };
}

const through = ({ x, y }: Moments, n: number) => ({ n, a: y - n * x });

const inBoth =
  ({ ux, uy }: NativePoints, n: number): Weight =>
  (i) =>
    1 / (uy![i]! ** 2 + (n * (ux?.[i] ?? 0)) ** 2);

/** Repeats a step from the ordinary line until the slope settles to the digits of a double. */
function settle(points: NativePoints, step: (n: number) => { n: number; a: number }): { n: number; a: number } {
  const ordinary = moments(points, () => 1);
  let n = ordinary.xy / ordinary.xx;
  for (let count = 0; count < 500; count++) {
    const next = step(n);
    if (Math.abs(next.n - n) <= 1e-12 * Math.abs(n)) return next;
    n = next.n;
  }
  throw new Error("the slope does not settle");
}

/** Errors in both by York's iteration (York et al. 2004, Am. J. Phys. 72:367), errors not correlated. */
function yorkStep(points: NativePoints, n: number) {
  const weight = inBoth(points, n);
  const centre = moments(points, weight);
  let [above, below] = [0, 0];
  for (let i = 0; i < points.x.length; i++) {
    const [h, k] = [points.x[i]! - centre.x, points.y[i]! - centre.y];
    const beta = weight(i) * (h * points.uy![i]! ** 2 + n * k * points.ux![i]! ** 2);
    above += weight(i) * beta * k;
    below += weight(i) * beta * h;
  }
  return through(centre, above / below);
}

/** ln q = a + n·ln Δp by a technique, in doubles. */
export function nativeLine(technique: Technique, points: NativePoints): { n: number; a: number } {
  const regression = (weight: Weight) => {
    const found = moments(points, weight);
    return through(found, found.xy / found.xx);
  };
  const organic = (weight: Weight) => {
    const found = moments(points, weight);
    return through(found, Math.sqrt(found.yy / found.xx));
  };
  switch (technique) {
    case "ordinary":
      return regression(() => 1);
    case "weighted":
      return points.uy === undefined
        ? regression((i) => Math.exp(2 * points.y[i]!))
        : settle(points, (n) => regression(inBoth(points, n)));
    case "organic correlation":
      return organic(() => 1);
    case "weighted organic correlation":
      return organic((i) => 1 / (points.ux![i]! * points.uy![i]!));
    case "errors in both":
      return settle(points, (n) => yorkStep(points, n));
  }
}
