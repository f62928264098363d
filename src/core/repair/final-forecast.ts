import { ensure, requireNotNegative, requirePositive, type Term } from "../errors";
import { conformanceProbability, wholeDegreesOfFreedom } from "../judgement/verdict";
import { effectiveDegreesOfFreedom } from "../statistics/effective-degrees";
import { studentT } from "../statistics/distributions";

/** A flow that is not known yet, at 50 Pa, m³/h: likely, and between what it will lie. */
export interface FlowRange {
  readonly low: number;
  readonly high: number;
  /** Absent where nothing between low and high is likelier than the rest. */
  readonly likely?: number;
  /** Its row in the input, counted from 1. */
  readonly row: number;
}

/**
 * What a mid-construction test says about the final one, by the probability p that it meets the limit: the whole 95 % interval below it (p of 0.975 or more), 0.9 or more,
 * between, 0.1 or less, the whole interval above it (less than 0.025).
 */
export const outlooks = [
  "meets the limit with a margin",
  "probably meets the limit",
  "can go either way",
  "probably misses the limit",
  "misses the limit by a margin",
] as const;

export type Outlook = (typeof outlooks)[number];

export interface FinalForecast {
  readonly likely: number;
  /** Everything at its best, the measured flow at its lower limit; not below 0. */
  readonly best: number;
  /** Everything at its worst, the measured flow at its upper limit. */
  readonly worst: number;
  /** Mean of what can come, which lies off the likely flow where a range is lopsided; its standard uncertainty and limits at 95 %. */
  readonly expected: number;
  readonly standardUncertainty: number;
  readonly lower: number;
  readonly upper: number;
  /** Those that the limits are taken with. */
  readonly degreesOfFreedom: number;
  /** Probability that the final flow meets the limit. */
  readonly probability: number;
  readonly outlook: Outlook;
}

function requireRange({ low, high, likely, row }: FlowRange, term: Term): void {
  ensure(low >= 0 && high < Infinity, term, "zeroOrMore", { got: low }, row);
  ensure(
    low <= (likely ?? low) && (likely ?? high) <= high && low <= high,
    term,
    "likelyOutsideRange",
    { likely, low, high },
    row,
  );
}

/** Likely flow, mean and variance: triangular about the likely flow, rectangular where there is none. JCGM 101:2008 6.4.2 and 6.4.5; NIST/SEMATECH e-Handbook. */
function moments({ low, high, likely }: FlowRange): { likely: number; mean: number; variance: number } {
  const width = high - low;
  const middle = low + width / 2;
  if (likely === undefined) return { likely: middle, mean: middle, variance: (width * width) / 12 };
  const below = likely - low;
  const above = high - likely;
  return {
    likely,
    mean: likely + (above - below) / 3,
    variance: (below * below + below * above + above * above) / 18,
  };
}

function total(ranges: readonly FlowRange[], of: (range: FlowRange) => number): number {
  return ranges.reduce((sum, range) => sum + of(range), 0);
}

/** exp(U/value): the limits at 95 % are the value over it and times it. */
function factorOfLimits(value: number, uncertainty: number, degreesOfFreedom: number): number {
  return Math.exp((studentT(0.95, degreesOfFreedom) * uncertainty) / value);
}

/** Words for a probability; a forecast is no verdict. */
function outlookOf(probability: number): Outlook {
  if (probability >= 0.975) return outlooks[0];
  if (probability >= 0.9) return outlooks[1];
  if (probability > 0.1) return outlooks[2];
  return probability >= 0.025 ? outlooks[3] : outlooks[4];
}

/**
 * Forecast of the final test: the flow measured now, less what repairs will take away, plus what openings still to come will add. Best and worst put everything
 * at its end at once; the standard uncertainty u adds the measurement's and the ranges' in squares, as independent. Limits are value·exp(±t·u/value), and the probability
 * follows from the same law as that of a result.
 * @param flow Flow at 50 Pa now, m³/h, and its standard uncertainty.
 * @param allowed Largest flow that the limit allows.
 * @param degreesOfFreedom Those of the flow's uncertainty, above 0; the ranges have infinite ones.
 * Errors: a flow not above 0; an uncertainty below 0; ranges that are not in order, naming the row; repairs that take away more than leaks.
 * Source: JCGM 100:2008 4.3, 5.1.2 and G.4.1; JCGM 106:2012 7.2 on ln q; the outlook's words and their thresholds are the method's own.
 * Example: finalForecast(300, 6, [{ low: 20, likely: 40, high: 60, row: 1 }], [{ low: 5, high: 15, row: 1 }], 300)
 *   → { likely: 270.0, standardUncertainty: 10.54, probability: 0.9965, outlook: "meets the limit with a margin", … }
 */
export function finalForecast(
  flow: number,
  flowUncertainty: number,
  repairs: readonly FlowRange[],
  openings: readonly FlowRange[],
  allowed: number,
  degreesOfFreedom = Infinity,
): FinalForecast {
  requirePositive(flow, "flow");
  requirePositive(allowed, "target");
  requireNotNegative(flowUncertainty, "flow uncertainty");
  ensure(degreesOfFreedom > 0, "flow degrees of freedom", "aboveZero", { got: degreesOfFreedom });
  for (const range of repairs) requireRange(range, "repairs");
  for (const range of openings) requireRange(range, "openings");
  const changed = (of: (range: FlowRange) => number) => flow - total(repairs, of) + total(openings, of);
  const likely = changed((range) => moments(range).likely);
  const expected = changed((range) => moments(range).mean);
  const left = Math.min(likely, expected);
  ensure(left > 0, "repairs", "repairsExceedFlow", { left });
  const measured = factorOfLimits(flow, flowUncertainty, wholeDegreesOfFreedom(degreesOfFreedom));
  const best = flow / measured - total(repairs, ({ high }) => high) + total(openings, ({ low }) => low);
  const worst = flow * measured - total(repairs, ({ low }) => low) + total(openings, ({ high }) => high);
  const variance = total([...repairs, ...openings], (range) => moments(range).variance);
  const standardUncertainty = Math.hypot(flowUncertainty, Math.sqrt(variance));
  const effective = effectiveDegreesOfFreedom(standardUncertainty, [
    { uncertainty: flowUncertainty, degreesOfFreedom },
  ]);
  const freedom = standardUncertainty > 0 ? wholeDegreesOfFreedom(effective) : Infinity;
  const factor = factorOfLimits(expected, standardUncertainty, freedom);
  const probability = conformanceProbability(expected, standardUncertainty, allowed, freedom);
  return {
    likely,
    best: Math.max(0, best),
    worst,
    expected,
    standardUncertainty,
    lower: expected / factor,
    upper: expected * factor,
    degreesOfFreedom: freedom,
    probability,
    outlook: outlookOf(probability),
  };
}
