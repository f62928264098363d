import { ensure, requirePositive } from "../errors";
import { atMost } from "../judgement/comparison";
import { normal95 } from "../statistics/coverage";

/** A flow that is not known yet, at 50 Pa, m³/h: likely, and between what it will lie. */
export interface FlowRange {
  readonly low: number;
  readonly high: number;
  /** Absent where nothing between low and high is likelier than the rest. */
  readonly likely?: number;
  /** Where it stands in the input, counted from 1. */
  readonly row: number;
}

/** What a mid-construction test says about the final one. */
export const outlooks = [
  "meets the limit even at worst",
  "likely to meet the limit",
  "likely to miss the limit",
  "misses the limit even at best",
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
  readonly outlook: Outlook;
}

function requireRange({ low, high, likely, row }: FlowRange, argument: string): void {
  ensure(low >= 0 && high < Infinity, argument, () => `a flow is 0 or more (got ${low})`, row);
  ensure(
    low <= (likely ?? low) && (likely ?? high) <= high && low <= high,
    argument,
    () => `the likely flow lies between low and high (got ${likely ?? "no likely flow"}, ${low} to ${high})`,
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

/** Words for a forecast, which is no verdict. */
function outlookOf({ likely, best, worst }: Pick<FinalForecast, "likely" | "best" | "worst">, allowed: number) {
  if (atMost(worst, allowed)) return outlooks[0];
  if (atMost(likely, allowed)) return outlooks[1];
  return atMost(best, allowed) ? outlooks[2] : outlooks[3];
}

/**
 * Forecast of the final test: the flow measured now, less what repairs will take away, plus what openings still to come will add. Best and worst put everything
 * at its end at once; the standard uncertainty adds the measurement's and the ranges' in squares, as independent.
 * @param flow Flow at 50 Pa now, m³/h, and its standard uncertainty.
 * @param allowed Largest flow that the limit allows.
 * Errors: a flow not above 0; an uncertainty below 0; ranges that are not in order, naming the row; repairs that take away more than leaks.
 * Source: JCGM 100:2008 4.3 and 5.1.2; the outlook's words are the method's own.
 */
export function finalForecast(
  flow: number,
  flowUncertainty: number,
  repairs: readonly FlowRange[],
  openings: readonly FlowRange[],
  allowed: number,
): FinalForecast {
  requirePositive(flow, "flow");
  requirePositive(allowed, "target");
  ensure(
    flowUncertainty >= 0 && flowUncertainty < Infinity,
    "flow_uncertainty",
    () => `must be 0 or more (got ${flowUncertainty})`,
  );
  for (const range of repairs) requireRange(range, "repairs");
  for (const range of openings) requireRange(range, "openings");
  const changed = (of: (range: FlowRange) => number) => flow - total(repairs, of) + total(openings, of);
  const likely = changed((range) => moments(range).likely);
  ensure(likely > 0, "repairs", () => `they take away more than leaks: ${likely} m³/h would be left`);
  const measured = normal95 * flowUncertainty;
  const best = flow - measured - total(repairs, ({ high }) => high) + total(openings, ({ low }) => low);
  const worst = flow + measured - total(repairs, ({ low }) => low) + total(openings, ({ high }) => high);
  const variance = total([...repairs, ...openings], (range) => moments(range).variance);
  const expected = changed((range) => moments(range).mean);
  const standardUncertainty = Math.hypot(flowUncertainty, Math.sqrt(variance));
  const bounds = { likely, best: Math.max(0, best), worst };
  return {
    ...bounds,
    expected,
    standardUncertainty,
    lower: Math.max(0, expected - normal95 * standardUncertainty),
    upper: expected + normal95 * standardUncertainty,
    outlook: outlookOf(bounds, allowed),
  };
}
