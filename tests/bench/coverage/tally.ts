import { quantities, type Evaluated, type Interval, type Outcome, type Quantity } from "./evaluate";
import { t95 } from "./student";

/** How the intervals of one result did. Shares are fractions of the tests that were evaluated. */
export interface Coverage {
  readonly covered: number;
  /** Share of tests whose true value lies below the interval, and above it. */
  readonly below: number;
  readonly above: number;
}

export interface IntervalFigures extends Coverage {
  /** Median of the half-widths; of the logarithm, but for n. */
  readonly halfWidth: number;
  /** Standard error of that median, relative. */
  readonly halfWidthError: number;
  /** Root mean square of the errors over that of the stated standard uncertainties. */
  readonly errorOverStated: number;
}

/** What is counted over the tests of one case. */
export interface Figures {
  readonly tests: number;
  /** Tests that a function refused, which have no interval, and its message for the first of them. */
  readonly refused: number;
  readonly firstRefusal?: string;
  readonly intervals: Readonly<Record<Quantity, IntervalFigures>>;
  readonly scatterOnly: Coverage;
  /** Share of unchanged houses whose repeated test is called significantly different; absent where repeats were not compared. */
  readonly significant?: number;
}

function shareOf<Item>(items: readonly Item[], holds: (item: Item) => boolean): number {
  return items.filter(holds).length / items.length;
}

function coverageOf(intervals: readonly Interval[]): Coverage {
  return {
    covered: shareOf(intervals, ({ truth, lower, upper }) => truth >= lower && truth <= upper),
    below: shareOf(intervals, ({ truth, lower }) => truth < lower),
    above: shareOf(intervals, ({ truth, upper }) => truth > upper),
  };
}

const rootMeanSquare = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

/** Median, and its relative standard error: the order statistics one binomial standard deviation, √N/2, to either side of it. */
function medianOf(values: readonly number[]): { median: number; error: number } {
  const sorted = [...values].sort((one, other) => one - other);
  const last = sorted.length - 1;
  const at = (place: number) => sorted[Math.min(last, Math.max(0, Math.round(place)))]!;
  const median = (at(Math.floor(last / 2)) + at(Math.ceil(last / 2))) / 2;
  const aside = Math.sqrt(sorted.length) / 2;
  return { median, error: (at(last / 2 + aside) - at(last / 2 - aside)) / 2 / median };
}

function figuresOf(quantity: Quantity, intervals: readonly Interval[]): IntervalFigures {
  const scale = quantity === "n" ? (value: number) => value : Math.log;
  const halfWidths = intervals.map(({ lower, upper }) => (scale(upper) - scale(lower)) / 2);
  const errors = intervals.map(({ value, truth }) => scale(value) - scale(truth));
  const stated = intervals.map(({ degrees }, index) => halfWidths[index]! / t95(degrees));
  const { median, error } = medianOf(halfWidths);
  return {
    ...coverageOf(intervals),
    halfWidth: median,
    halfWidthError: error,
    errorOverStated: rootMeanSquare(errors) / rootMeanSquare(stated),
  };
}

/** Counts the outcomes of one case. */
export function tally(outcomes: readonly Outcome[]): Figures {
  const evaluated = outcomes.filter((outcome): outcome is Evaluated => "intervals" in outcome);
  const refusals = outcomes.flatMap((outcome) => ("refused" in outcome ? [outcome.refused] : []));
  const compared = evaluated.flatMap(({ isSignificant }) => isSignificant ?? []);
  const of = (quantity: Quantity) =>
    figuresOf(
      quantity,
      evaluated.map(({ intervals }) => intervals[quantity]),
    );
  return {
    tests: outcomes.length,
    refused: refusals.length,
    ...(refusals[0] !== undefined && { firstRefusal: refusals[0] }),
    intervals: Object.fromEntries(quantities.map((quantity) => [quantity, of(quantity)])) as Figures["intervals"],
    scatterOnly: coverageOf(evaluated.map(({ scatterOnly }) => scatterOnly)),
    ...(compared.length > 0 && { significant: shareOf(compared, (isSignificant) => isSignificant) }),
  };
}
