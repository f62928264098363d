import { normalProbability, studentProbability, studentQuantile } from "../../../core/index";
import { isError, toInteger } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors, requireFinite, type Scalar } from "../values/value";
import { erf, erfc, findNormalQuantile, logGamma, normalDensity, studentDensity } from "./special-functions";
import { readPlainNumbers } from "./rounding";

/** Degrees of freedom are cut to whole numbers, at least 1. */
function withFreedom(freedom: number, compute: (whole: number) => number): Scalar {
  const whole = toInteger(freedom);
  return whole >= 1 && whole <= 1e10 ? requireFinite(compute(whole)) : errors.number;
}

/** Probability beyond t on one side. */
const studentTail = (t: number, freedom: number): number => studentProbability(-t, freedom);

/** The t that is exceeded with a probability of at most ½. */
function findStudentQuantile(tail: number, freedom: number): number {
  if (tail < 1e-100) refuse("a quantile of Student's t for a probability below 1E-100");
  return tail < 0.5 ? studentQuantile(tail, freedom) : 0;
}

const twoTailedQuantile = takes(["number", "number"], ([probability, freedom]) =>
  probability > 0 && probability <= 1
    ? withFreedom(freedom, (whole) => findStudentQuantile(probability / 2, whole))
    : errors.number,
);

const normal = takes(["number", "number", "number", "logical"], ([x, mean, deviation, cumulative]) => {
  if (!(deviation > 0)) return errors.number;
  const z = (x - mean) / deviation;
  return requireFinite(cumulative ? normalProbability(z) : normalDensity(z) / deviation);
});

const normalInverse = takes(["number", "number", "number"], ([probability, mean, deviation]) =>
  probability > 0 && probability < 1 && deviation > 0 ? computeQuantile(probability, mean, deviation) : errors.number,
);

function computeQuantile(probability: number, mean: number, deviation: number): Scalar {
  const result = mean + deviation * findNormalQuantile(probability);
  // The quantile of a probability is good to some thirteen digits; what cancels against the mean is not.
  if (Math.abs(result) < 1e-4 * Math.abs(mean)) refuse("a normal quantile that cancels against its mean");
  return requireFinite(result);
}

const exponential = takes(["number", "number", "logical"], ([x, rate, cumulative]) => {
  if (x < 0 || !(rate > 0)) return errors.number;
  return requireFinite(cumulative ? -Math.expm1(-rate * x) : rate * Math.exp(-rate * x));
});

const logGammaEntry = takes(["number"], ([x]) => (x > 0 ? requireFinite(logGamma(x)) : errors.number));

const confidence = takes(["number", "number", "number"], ([alpha, deviation, size]) => {
  const count = toInteger(size);
  if (!(alpha > 0 && alpha < 1) || !(deviation > 0) || count < 1) return errors.number;
  return requireFinite((-findNormalQuantile(alpha / 2) * deviation) / Math.sqrt(count));
});

/** Of the former analysis add-in: truth values are no numbers. */
const defineOnPlainNumber = (compute: (x: number) => number) =>
  takes(["scalar"], ([given]) => {
    const numbers = readPlainNumbers([given]);
    return isError(numbers) ? numbers : compute(numbers[0] ?? 0);
  });

/** Normal, Student's t and a few other distributions. */
export const distributions: FunctionTable = {
  "T.INV.2T": twoTailedQuantile,
  TINV: twoTailedQuantile,
  "T.INV": takes(["number", "number"], ([probability, freedom]) => {
    if (!(probability > 0 && probability < 1)) return errors.number;
    return withFreedom(freedom, (whole) =>
      probability < 0.5 ? -findStudentQuantile(probability, whole) : findStudentQuantile(1 - probability, whole),
    );
  }),
  "T.DIST.2T": takes(["number", "number"], ([t, freedom]) =>
    t >= 0 ? withFreedom(freedom, (whole) => 2 * studentTail(t, whole)) : errors.number,
  ),
  "T.DIST.RT": takes(["number", "number"], ([t, freedom]) => withFreedom(freedom, (whole) => studentTail(t, whole))),
  "T.DIST": takes(["number", "number", "logical"], ([t, freedom, cumulative]) => {
    if (!cumulative && freedom === 0) return errors.division;
    return withFreedom(freedom, (whole) => (cumulative ? studentProbability(t, whole) : studentDensity(t, whole)));
  }),
  TDIST: takes(["number", "number", "number"], ([t, freedom, tails]) => {
    const sides = toInteger(tails);
    if (!(t >= 0) || (sides !== 1 && sides !== 2)) return errors.number;
    return withFreedom(freedom, (whole) => sides * studentTail(t, whole));
  }),
  "NORM.S.DIST": takes(["number", "logical"], ([z, cumulative]) =>
    requireFinite(cumulative ? normalProbability(z) : normalDensity(z)),
  ),
  NORMSDIST: takes(["number"], ([z]) => requireFinite(normalProbability(z))),
  "NORM.S.INV": takes(["number"], ([p]) => (p > 0 && p < 1 ? findNormalQuantile(p) : errors.number)),
  NORMSINV: takes(["number"], ([p]) => (p > 0 && p < 1 ? findNormalQuantile(p) : errors.number)),
  "NORM.DIST": normal,
  NORMDIST: normal,
  "NORM.INV": normalInverse,
  NORMINV: normalInverse,
  STANDARDIZE: takes(["number", "number", "number"], ([x, mean, deviation]) =>
    deviation > 0 ? requireFinite((x - mean) / deviation) : errors.number,
  ),
  "CONFIDENCE.NORM": confidence,
  CONFIDENCE: confidence,
  "CONFIDENCE.T": takes(["number", "number", "number"], ([alpha, deviation, size]) => {
    const count = toInteger(size);
    if (!(alpha > 0 && alpha < 1) || !(deviation > 0) || count < 1) return errors.number;
    return count === 1
      ? errors.division
      : requireFinite((findStudentQuantile(alpha / 2, count - 1) * deviation) / Math.sqrt(count));
  }),
  PHI: takes(["number"], ([z]) => requireFinite(normalDensity(z))),
  GAUSS: takes(["number"], ([z]) => requireFinite(0.5 * erf(z / Math.SQRT2))),
  "ERF.PRECISE": defineOnPlainNumber(erf),
  "ERFC.PRECISE": defineOnPlainNumber(erfc),
  ERF: takes(["scalar", "scalar??"], ([lower, upper]) => {
    const limits = readPlainNumbers(upper === undefined ? [lower] : [lower, upper]);
    if (isError(limits)) return limits;
    const [from = 0, to] = limits;
    return to === undefined ? erf(from) : erf(to) - erf(from);
  }),
  ERFC: defineOnPlainNumber(erfc),
  FISHER: takes(["number"], ([x]) => (Math.abs(x) < 1 ? Math.atanh(x) : errors.number)),
  FISHERINV: takes(["number"], ([y]) => Math.tanh(y)),
  "EXPON.DIST": exponential,
  EXPONDIST: exponential,
  GAMMALN: logGammaEntry,
  "GAMMALN.PRECISE": logGammaEntry,
};
