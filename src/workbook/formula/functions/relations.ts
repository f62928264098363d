import { isError } from "../coerce";
import { takes, type FunctionTable } from "../function-entry";
import { errors, finite, type Scalar } from "../value";
import { pairsOf } from "./gather";
import { centredProducts, centredSum, mean } from "./moments";

/** A function of pairs: a range of y and one of x, in this order in most of Excel's functions. */
const ofPairs = (least: number, compute: (first: number[], second: number[]) => Scalar) =>
  takes(["array", "array"], ([first, second], caller) => {
    const pairs = pairsOf(first, second, caller);
    if (isError(pairs)) return pairs;
    return pairs.x.length < least ? errors.division : compute(pairs.x, pairs.y);
  });

const ratio = (top: number, bottom: number): Scalar => (bottom === 0 ? errors.division : finite(top / bottom));

const slope = (y: number[], x: number[]): Scalar => ratio(centredProducts(x, y), centredSum(x));

function intercept(y: number[], x: number[]): Scalar {
  const gradient = slope(y, x);
  return typeof gradient === "number" ? finite(mean(y) - gradient * mean(x)) : gradient;
}

function correlation(a: number[], b: number[]): Scalar {
  return ratio(centredProducts(a, b), Math.sqrt(centredSum(a)) * Math.sqrt(centredSum(b)));
}

function standardErrorOfY(y: number[], x: number[]): Scalar {
  const spread = centredSum(x);
  if (spread === 0 || x.length < 3) return errors.division;
  const residual = centredSum(y) - centredProducts(x, y) ** 2 / spread;
  return Math.sqrt(Math.max(0, residual) / (x.length - 2));
}

const forecast = takes(["number", "array", "array"], ([at, known, given], caller) => {
  const pairs = pairsOf(known, given, caller);
  if (isError(pairs)) return pairs;
  const { x: y, y: x } = pairs;
  if (y.length === 0) return errors.division;
  const gradient = slope(y, x);
  return typeof gradient === "number" ? finite(mean(y) + gradient * (at - mean(x))) : gradient;
});

/** How two lists of numbers go together. */
export const relations: FunctionTable = {
  SLOPE: ofPairs(1, slope),
  INTERCEPT: ofPairs(1, intercept),
  CORREL: ofPairs(1, correlation),
  PEARSON: ofPairs(1, correlation),
  RSQ: ofPairs(1, (a, b) => {
    const r = correlation(a, b);
    return typeof r === "number" ? r * r : r;
  }),
  STEYX: ofPairs(1, standardErrorOfY),
  "COVARIANCE.P": ofPairs(1, (a, b) => finite(centredProducts(a, b) / a.length)),
  COVAR: ofPairs(1, (a, b) => finite(centredProducts(a, b) / a.length)),
  "COVARIANCE.S": ofPairs(2, (a, b) => finite(centredProducts(a, b) / (a.length - 1))),
  FORECAST: forecast,
  "FORECAST.LINEAR": forecast,
};
