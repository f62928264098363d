import { isError } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, requireFinite, type Scalar } from "../values/value";
import { collectPairs } from "./gather";
import { sumCentredProducts, sumCentredPowers, mean } from "./statistics";

/** A function of pairs: a range of y and one of x, in this order in most of Excel's functions. */
const defineOnPairs = (least: number, compute: (first: number[], second: number[]) => Scalar) =>
  takes(["array", "array"], ([first, second], caller) => {
    const pairs = collectPairs(first, second, caller);
    if (isError(pairs)) return pairs;
    return pairs.x.length < least ? errors.division : compute(pairs.x, pairs.y);
  });

const divideOrFail = (top: number, bottom: number): Scalar =>
  bottom === 0 ? errors.division : requireFinite(top / bottom);

/** The squares about the mean; of equal numbers they are 0, unless the mean misses them by a rounding error. */
function spreadOf(numbers: readonly number[]): number {
  const spread = sumCentredPowers(numbers);
  if (!Number.isFinite(spread)) refuse("a line or correlation through numbers too large to be squared");
  if (spread !== 0 && numbers.every((number) => number === numbers[0]))
    refuse("a line or correlation through equal numbers, where only rounding error is left");
  return spread;
}

const computeSlope = (y: number[], x: number[]): Scalar => divideOrFail(sumCentredProducts(x, y), spreadOf(x));

function computeIntercept(y: number[], x: number[]): Scalar {
  const gradient = computeSlope(y, x);
  return typeof gradient === "number" ? requireFinite(mean(y) - gradient * mean(x)) : gradient;
}

function computeCorrelation(a: number[], b: number[]): Scalar {
  return divideOrFail(sumCentredProducts(a, b), Math.sqrt(spreadOf(a)) * Math.sqrt(spreadOf(b)));
}

function computeStandardErrorOfY(y: number[], x: number[]): Scalar {
  const spread = spreadOf(x);
  if (spread === 0 || x.length < 3) return errors.division;
  const gradient = sumCentredProducts(x, y) / spread;
  const [centreX, centreY] = [mean(x), mean(y)];
  // Residual by residual: the difference of the sums of squares would lose the digits of a good fit.
  const residual = x.reduce(
    (total, value, place) => total + ((y[place] ?? 0) - centreY - gradient * (value - centreX)) ** 2,
    0,
  );
  return requireFinite(Math.sqrt(residual / (x.length - 2)));
}

const forecast = takes(["number", "array", "array"], ([at, known, given], caller) => {
  const pairs = collectPairs(known, given, caller);
  if (isError(pairs)) return pairs;
  const { x: y, y: x } = pairs;
  if (y.length === 0) return errors.division;
  const gradient = computeSlope(y, x);
  return typeof gradient === "number" ? requireFinite(mean(y) + gradient * (at - mean(x))) : gradient;
});

/** How two lists of numbers go together. */
export const relations: FunctionTable = {
  SLOPE: defineOnPairs(1, computeSlope),
  INTERCEPT: defineOnPairs(1, computeIntercept),
  CORREL: defineOnPairs(1, computeCorrelation),
  PEARSON: defineOnPairs(1, computeCorrelation),
  RSQ: defineOnPairs(1, (a, b) => {
    const r = computeCorrelation(a, b);
    return typeof r === "number" ? r * r : r;
  }),
  STEYX: defineOnPairs(1, computeStandardErrorOfY),
  "COVARIANCE.P": defineOnPairs(1, (a, b) => requireFinite(sumCentredProducts(a, b) / a.length)),
  COVAR: defineOnPairs(1, (a, b) => requireFinite(sumCentredProducts(a, b) / a.length)),
  "COVARIANCE.S": defineOnPairs(2, (a, b) => requireFinite(sumCentredProducts(a, b) / (a.length - 1))),
  FORECAST: forecast,
  "FORECAST.LINEAR": forecast,
};
