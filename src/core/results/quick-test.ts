import { ensure, missing, requirePositive } from "../errors";
import { usualPressure } from "../constants";
import { type Limits, limitsOf, requireExponent } from "../leakage/curve";
import { assumedExponent, assumedExponentDeviation } from "../leakage/expected-exponent";
import type { LeakageReading } from "../leakage/readings";
import { mean } from "../numbers";
import { normal95 } from "../statistics/distributions";
import { combine } from "../uncertainty/budget";

/** What is assumed or known beside one reading. */
interface OnePointTerms {
  readonly exponent?: number | undefined;
  /** Standard uncertainty of the exponent; that of an assumed one where it is not given. */
  readonly exponentUncertainty?: number | undefined;
  /** Pressure at which the flow is wanted, Pa. */
  readonly at?: number | undefined;
  /** Zero-flow pressure, Pa, signed as the reading. */
  readonly baseline?: number | undefined;
}

interface OnePointFlow {
  readonly flow: number;
  readonly standardUncertainty: number;
  /** Limits at 95 %. */
  readonly lower: number;
  readonly upper: number;
  /** Signed, Pa. */
  readonly inducedPressure: number;
  readonly exponent: number;
}

/**
 * Flow at a reference pressure from one reading: q·(p/Δp)^n, Δp the reading less the baseline. The uncertainty is that of the exponent alone,
 * |ln(p/Δp)|·u(n) relative: it vanishes at the reading itself, and nothing of the instruments is in it.
 * Errors: flow or pressures that cannot be, a reading within the baseline, an exponent outside 0.4 to 1.1, a negative uncertainty.
 * Source: ANSI/RESNET/ICC 380, one-point test; ASTM E1827, single-point method (both from memory); JCGM 100:2008 5.1.2.
 * Example: onePointFlow(1000, -40) → { flow: 1156.1, standardUncertainty: 14.7, lower: 1127.6, upper: 1185.3, inducedPressure: -40, exponent: 0.65 }
 */
export function onePointFlow(flow: number, pressure: number, terms: OnePointTerms = {}): OnePointFlow {
  const { exponent = assumedExponent, exponentUncertainty = assumedExponentDeviation } = terms;
  const { at = usualPressure, baseline = 0 } = terms;
  requirePositive(flow, "flow");
  requirePositive(at, "at");
  requireExponent(exponent, "exponent");
  ensure(exponentUncertainty >= 0 && exponentUncertainty <= 1, "exponent", "exponentUncertainty");
  ensure(pressure !== 0, "pressure", "notZero");
  const induced = pressure - baseline;
  ensure(induced * pressure > 0, "pressure", "belowBaseline", { pressure, baseline });
  const logRatio = Math.log(at / Math.abs(induced));
  const result = flow * Math.exp(exponent * logRatio);
  const relative = Math.abs(logRatio) * exponentUncertainty;
  const { lower, upper } = limitsOf(result, normal95 * relative);
  return {
    flow: result,
    standardUncertainty: result * relative,
    lower,
    upper,
    inducedPressure: induced,
    exponent,
  };
}

/** The repeated readings at one pressure. */
interface StationMean {
  readonly count: number;
  /** Means of the induced pressures, Pa as magnitudes, and of the flows. */
  readonly pressure: number;
  readonly flow: number;
}

export interface TwoPointFlow {
  /** Limits at 95 %; where a pressure was read once only, no scatter is known and they are absent. */
  readonly flow: number | Limits;
  readonly exponent: number | Limits;
  /** Absolute standard uncertainty of the flow. */
  readonly standardUncertainty?: number;
  readonly exponentUncertainty?: number;
  readonly degreesOfFreedom?: number;
  readonly coefficient: number;
  readonly high: StationMean;
  readonly low: StationMean;
}

const lowestRatio = 1.5;

/**
 * Readings in two groups by their pressure, the higher first: split where the ratio of neighbours is largest.
 * Errors: fewer than two readings (missing); groups that are not clearly apart, so that a reading could belong to either.
 */
export function twoStations(readings: readonly LeakageReading[]): [LeakageReading[], LeakageReading[]] {
  if (readings.length < 2) {
    throw missing("pressures", "tooFew", { least: 2, of: "pressures", count: readings.length });
  }
  const falling = [...readings].sort((a, b) => b.pressure - a.pressure);
  let [split, widest] = [1, 0];
  for (let index = 1; index < falling.length; index++) {
    const ratio = falling[index - 1]!.pressure / falling[index]!.pressure;
    if (ratio > widest) [split, widest] = [index, ratio];
  }
  return [falling.slice(0, split), falling.slice(split)];
}

function requireApart(high: readonly LeakageReading[], low: readonly LeakageReading[]): void {
  const pressures = (readings: readonly LeakageReading[]) => readings.map(({ pressure }) => pressure);
  const [highest, lowest] = [Math.max(...pressures(high)), Math.min(...pressures(low))];
  const [above, below] = [Math.min(...pressures(high)), Math.max(...pressures(low))];
  const apart = above / below;
  ensure(apart >= lowestRatio && apart > highest / above && apart > below / lowest, "pressures", "pressuresNotApart", {
    above,
    below,
  });
}

function meanOf(readings: readonly LeakageReading[]): StationMean {
  return {
    count: readings.length,
    pressure: mean(readings.map(({ pressure }) => pressure)),
    flow: mean(readings.map(({ flow }) => flow)),
  };
}

/** Relative standard error of a station's flow: scatter about the curve, so that a pressure that wandered between repeats does not count as scatter. */
function scatter(readings: readonly LeakageReading[], exponent: number): number {
  const deviations = readings.map(({ pressure, flow }) => Math.log(flow) - exponent * Math.log(pressure));
  const middle = mean(deviations);
  const squares = deviations.reduce((sum, deviation) => sum + (deviation - middle) ** 2, 0);
  return Math.sqrt(squares / (readings.length - 1) / readings.length);
}

/**
 * Flow at a reference pressure and measured exponent from repeated readings at two pressures: n = ln(q1/q2)/ln(Δp1/Δp2) of their means.
 * Each station's relative standard error e_j is the scatter of its repeats; ln q at p is a weighted sum of both stations' logarithms, the weights
 * w = ln(p/Δp2)/ln(Δp1/Δp2) and 1 − w, and u(n) = √(e1² + e2²)/ln(Δp1/Δp2). Nothing of the instruments is in it.
 * @param high Readings at the higher pressure, induced pressures as magnitudes.
 * @param low Readings at the lower pressure.
 * Errors: a station without readings (missing); pressures or flows not above 0; pressures that are not clearly two; a flow that does not rise with
 * the pressure.
 * Source: ASTM E1827, two-point method, 50 and 12.5 Pa with five repeats each (from memory); JCGM 100:2008 5.1.2 and G.4.1.
 * Example: twoPointFlow([{ pressure: 50, flow: 400, row: 1 }], [{ pressure: 12.5, flow: 160, row: 2 }])
 *   → { flow: 400, exponent: 0.66096, coefficient: 30.137, … }
 */
export function twoPointFlow(
  high: readonly LeakageReading[],
  low: readonly LeakageReading[],
  at = usualPressure,
): TwoPointFlow {
  requirePositive(at, "at");
  if (high.length === 0 || low.length === 0) {
    throw missing("pressures", "tooFew", { least: 2, of: "pressures", count: high.length === low.length ? 0 : 1 });
  }
  for (const { pressure, flow, row } of [...high, ...low]) {
    requirePositive(pressure, "pressures", row);
    requirePositive(flow, "flows", row);
  }
  requireApart(high, low);
  const [upper, lower] = [meanOf(high), meanOf(low)];
  const span = Math.log(upper.pressure / lower.pressure);
  const exponent = Math.log(upper.flow / lower.flow) / span;
  ensure(exponent > 0, "flows", "flowNotRising");
  const toHigh = Math.log(at / upper.pressure);
  const flow = upper.flow * Math.exp(exponent * toHigh);
  const coefficient = upper.flow * Math.exp(-exponent * Math.log(upper.pressure));
  const stations = { coefficient, high: upper, low: lower };
  if (upper.count < 2 || lower.count < 2) return { ...stations, flow, exponent };
  const errors = [scatter(high, exponent), scatter(low, exponent)] as const;
  const weight = 1 + toHigh / span;
  const parts = (sensitivities: readonly [number, number]) =>
    combine(
      [
        { symbol: "high", uncertainty: errors[0], sensitivity: sensitivities[0], degreesOfFreedom: upper.count - 1 },
        { symbol: "low", uncertainty: errors[1], sensitivity: sensitivities[1], degreesOfFreedom: lower.count - 1 },
      ],
      0.95,
    );
  const ofFlow = parts([weight, 1 - weight]);
  const ofExponent = parts([1 / span, -1 / span]);
  return {
    ...stations,
    flow: limitsOf(flow, ofFlow.expanded),
    exponent: limitsOf(exponent, ofExponent.expanded, true),
    standardUncertainty: flow * ofFlow.standardUncertainty,
    exponentUncertainty: ofExponent.standardUncertainty,
    ...(Number.isFinite(ofFlow.effectiveDegreesOfFreedom) && { degreesOfFreedom: ofFlow.degreesOfFreedom }),
  };
}
