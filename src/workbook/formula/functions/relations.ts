import { isError } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, finite, type Scalar } from "../values/value";
import { pairsOf } from "./gather";
import { centredProducts, centredSum, mean } from "./statistics";

/** A function of pairs: a range of y and one of x, in this order in most of Excel's functions. */
const ofPairs = (least: number, compute: (first: number[], second: number[]) => Scalar) =>
  takes(["array", "array"], ([first, second], caller) => {
    const pairs = pairsOf(first, second, caller);
    if (isError(pairs)) return pairs;
    return pairs.x.length < least ? errors.division : compute(pairs.x, pairs.y);
  });

const ratio = (top: number, bottom: number): Scalar => (bottom === 0 ? errors.division : finite(top / bottom));

/** The squares about the mean; of equal numbers they are 0, unless the mean misses them by a rounding error. */
function spreadOf(numbers: readonly number[]): number {
  const spread = centredSum(numbers);
  if (!Number.isFinite(spread)) refuse("a line or correlation through numbers too large to be squared");
  if (spread !== 0 && numbers.every((number) => number === numbers[0]))
    refuse("a line or correlation through equal numbers, where only rounding error is left");
  return spread;
}

const slope = (y: number[], x: number[]): Scalar => ratio(centredProducts(x, y), spreadOf(x));

function intercept(y: number[], x: number[]): Scalar {
  const gradient = slope(y, x);
  return typeof gradient === "number" ? finite(mean(y) - gradient * mean(x)) : gradient;
}

function correlation(a: number[], b: number[]): Scalar {
  return ratio(centredProducts(a, b), Math.sqrt(spreadOf(a)) * Math.sqrt(spreadOf(b)));
}

function standardErrorOfY(y: number[], x: number[]): Scalar {
  const spread = spreadOf(x);
  if (spread === 0 || x.length < 3) return errors.division;
  const gradient = centredProducts(x, y) / spread;
  const [centreX, centreY] = [mean(x), mean(y)];
  // Residual by residual: the difference of the sums of squares would lose the digits of a good fit.
  const residual = x.reduce(
    (total, value, place) => total + ((y[place] ?? 0) - centreY - gradient * (value - centreX)) ** 2,
    0,
  );
  return finite(Math.sqrt(residual / (x.length - 2)));
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
