import { ensure, requirePositive, requireWithin, type Term } from "../errors";
import { studentT } from "../statistics/distributions";

/**
 * Ways to fit the leakage curve on the logarithms: ordinary least squares; least squares weighted by stated uncertainties, or by q² where none are stated;
 * the line of organic correlation, plain and weighted; the line with errors in both pressure and flow; least squares weighted by stated or assumed
 * uncertainties, with the exponents of other houses as a prior.
 */
export const techniques = [
  "ordinary",
  "weighted",
  "organic correlation",
  "weighted organic correlation",
  "errors in both",
  "weighted with expected exponent",
] as const;

export type Technique = (typeof techniques)[number];

/** The fitted leakage curve q = C·Δp^n, with what its uncertainty needs. Logarithms are natural. */
export interface LeakageFit {
  readonly technique: Technique;
  readonly count: number;
  /** N − 2 where the standard errors come from the scatter; infinite where they come from stated uncertainties. */
  readonly degreesOfFreedom: number;
  /** C, m³/(h·Pa^n), at test conditions. */
  readonly coefficient: number;
  readonly logCoefficient: number;
  /** n. */
  readonly exponent: number;
  readonly standardErrorOfExponent: number;
  readonly standardErrorOfLogCoefficient: number;
  /** r², of the logarithms. */
  readonly determination: number;
  /** Standard deviation of the residuals of ln q, √(Σr²/(N − 2)), whatever the weights. */
  readonly residualDeviation: number;
  /** The point through which the line turns: there the errors of level and slope are independent. For least squares the means, under its weights. */
  readonly meanLogPressure: number;
  readonly meanLogFlow: number;
  /** Standard error of ln q at that point. */
  readonly standardErrorOfLevel: number;
  /** About the mean, under the weights, the largest of which is 1. */
  readonly sumOfSquaresOfLogPressure: number;
  /** χ² = Σr²/(u²(y) + n²·u²(x)) against the stated uncertainties, N − 2 expected; absent where none were stated, or some assumed. */
  readonly chiSquare?: number;
  /** √(χ²/(N − 2)), by which the standard errors were multiplied because the scatter is larger than stated; 1 otherwise. */
  readonly enlargement: number;
  /** Absent where the technique expects no exponent. */
  readonly prior?: PriorPart;
}

/** What the expected exponent did to n: n = share·0.65 + (1 − share)·exponentOfReadings. */
export interface PriorPart {
  /** From 0, where the readings alone decide, to 1. */
  readonly share: number;
  /** n of the readings alone, under the same weights. */
  readonly exponentOfReadings: number;
}

/** A value with its confidence limits. */
export interface Limits {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

/** Standard error of the fitted ln q at ln Δp: that of the level (s/√N for the ordinary line) and s_n·(ln p − x̄) of the slope, squared and added. */
export function standardErrorOfLogFlow(fit: LeakageFit, logPressure: number): number {
  return Math.hypot(fit.standardErrorOfLevel, fit.standardErrorOfExponent * (logPressure - fit.meanLogPressure));
}

/** Covariance of n and ln C: −x̄·u²(n). */
export function covarianceOfExponentAndLogCoefficient(fit: LeakageFit): number {
  return -fit.meanLogPressure * fit.standardErrorOfExponent ** 2;
}

/** Reference conditions as a shift along the line: q at reference conditions is factor × q of the line at Δp × pressureFactor. */
export interface Conditions {
  readonly factor: number;
  readonly pressureFactor: number;
}

const asTested: Conditions = { factor: 1, pressureFactor: 1 };

/**
 * Flow at a pressure with the confidence limits of the fitted line: C·p^n·exp(±t·s_y).
 * At reference conditions the limits follow from the same line at a shifted pressure, since the correction depends on n: C_L·p^n = factor·C·(p·pressureFactor)^n.
 * @param confidence Two-sided, a fraction; the limits cover only the scatter of the readings, not the instruments.
 * Source: ISO 9972:2015, confidence interval of the derived values; ASTM E779 (from memory; recomputed against a worked example).
 * Example: flowWithLimits(fitLeakage([{ pressure: 12.5, flow: 160, row: 1 }, { pressure: 25, flow: 255, row: 2 }, { pressure: 50, flow: 400, row: 3 }],
 *   "ordinary"), 50, 0.95) → { value: 401.06, lower: 371.99, upper: 432.40 }
 */
export function flowWithLimits(
  fit: LeakageFit,
  pressure: number,
  confidence: number,
  { factor, pressureFactor }: Conditions = asTested,
): Limits {
  const logPressure = Math.log(pressure * pressureFactor);
  return limitsOf(
    factor * Math.exp(logFlowAt(fit, logPressure)),
    studentT(confidence, fit.degreesOfFreedom) * standardErrorOfLogFlow(fit, logPressure),
  );
}

/** C with its confidence limits C·exp(±t·s_lnC). */
export function coefficientWithLimits(fit: LeakageFit, confidence: number): Limits {
  return limitsOf(fit.coefficient, studentT(confidence, fit.degreesOfFreedom) * fit.standardErrorOfLogCoefficient);
}

/** n with its confidence limits n ± t·s_n. */
export function exponentWithLimits(fit: LeakageFit, confidence: number): Limits {
  const half = studentT(confidence, fit.degreesOfFreedom) * fit.standardErrorOfExponent;
  return limitsOf(fit.exponent, half, true);
}

/** Limits of a value: value·exp(±half), or value ± half where the half-width is absolute, as that of n. */
export function limitsOf(value: number, half: number, absolute = false): Limits {
  return absolute
    ? { value, lower: value - half, upper: value + half }
    : { value, lower: value * Math.exp(-half), upper: value * Math.exp(half) };
}

/** The same change, exactly known, of a value and of its limits. */
export function eachLimit({ value, lower, upper }: Limits, change: (one: number) => number): Limits {
  return { value: change(value), lower: change(lower), upper: change(upper) };
}

/** ln of the line's flow at ln Δp; through the means of the readings, where the line is known best. */
export function logFlowAt(
  { meanLogFlow, meanLogPressure, exponent }: Pick<LeakageFit, "meanLogFlow" | "meanLogPressure" | "exponent">,
  logPressure: number,
): number {
  return meanLogFlow + exponent * (logPressure - meanLogPressure);
}

/**
 * The leakage curve q = C·Δp^n; q in the unit of C. Errors: C or Δp not above 0, n outside what readings can give. Source: ISO 9972:2015; ASTM E779.
 * Example: leakageFlow(53.3956, 0.6434, 10) → 234.9
 */
export function leakageFlow(coefficient: number, exponent: number, pressure: number): number {
  requirePositive(coefficient, "coefficient");
  requirePositive(pressure, "pressure");
  requireFittedExponent(exponent);
  return coefficient * Math.pow(pressure, exponent);
}

/**
 * An exponent that is assumed or typed: 0.5 (openings) to 1 (fine cracks), with some margin. A number beyond is a typing error.
 * ISO 9972:2015 wants 0.5 to 1.0; the margin is common practice, no source.
 */
export const givenExponents = { lowest: 0.4, highest: 1.1 } as const;

/** Throws "invalid" unless an exponent given by hand is one that leakage can have. */
export function requireExponent(exponent: number, term: Term, row?: number): void {
  const { lowest, highest } = givenExponents;
  requireWithin(exponent, lowest, highest, term, "exponent", row);
}

/**
 * Throws "invalid" unless an exponent is one that readings can give: above 0, at most 1.5. A fit through readings that went wrong leaves 0.4 to 1.1; its figures
 * are computed all the same, so that the tester sees them beside the check of validity that they break. What lies beyond 1.5 is no leakage at all (common
 * practice, no source).
 */
export function requireFittedExponent(exponent: number): void {
  ensure(exponent > 0 && exponent <= 1.5, "exponent", "aboveZeroUpTo", { highest: 1.5, got: exponent });
}
