import {
  autocorrelation,
  batches,
  effectiveCount,
  rowsForBatches,
  standardErrorByBatches,
  standardErrorOfMean,
} from "../statistics/autocorrelation";
import { mean } from "../numbers";

/** Uncertainty of the mean of one set of baseline readings. */
export interface BaselineSet {
  /** Pa, standard. */
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
}

/** What the baseline readings say about their own means and about the noise of the pressure. */
export interface BaselineScatter {
  readonly before: BaselineSet;
  /** Absent where no baseline was read after the test. */
  readonly after?: BaselineSet;
  /** φ of neighbouring rows, estimated from both sets together; undefined where no set has enough rows to estimate it, so that rows are taken as independent. */
  readonly correlation: number | undefined;
  /** Standard deviation of single rows about the mean of their set, Pa; undefined where fewer than three degrees of freedom are left for it. */
  readonly deviation: number | undefined;
}

/** What is assumed of the gauge and of a baseline that was read only once. */
export interface BaselineAssumptions {
  /** Pa, the step of the gauge's display. */
  readonly resolution: number;
  /** Pa, standard, of a single value. */
  readonly ofOne: number;
}

/** Below six rows the correlation of neighbours cannot be distinguished from chance. */
const rowsForCorrelation = 6;

/** The spread of fewer degrees of freedom than these is not trusted as the noise of a reading. */
const freedomForDeviation = 3;

interface Deviations {
  readonly values: readonly number[];
  readonly squares: number;
  readonly products: number;
}

function deviationsOf(rows: readonly number[]): Deviations {
  const middle = mean(rows);
  const values = rows.map((row) => row - middle);
  let [squares, products] = [0, 0];
  values.forEach((value, index) => {
    squares += value * value;
    products += index === 0 ? 0 : value * values[index - 1]!;
  });
  return { values, squares, products };
}

function sumOf(sets: readonly Deviations[], value: (set: Deviations) => number): number {
  return sets.reduce((sum, set) => sum + value(set), 0);
}

function correlationOf(sets: readonly Deviations[]): number | undefined {
  const long = sets.filter(({ values }) => values.length >= rowsForCorrelation);
  if (long.length === 0) return undefined;
  const squares = sumOf(long, (set) => set.squares);
  if (squares === 0) return 0;
  const count = sumOf(long, (set) => set.values.length) / long.length;
  return autocorrelation(sumOf(long, (set) => set.products) / squares, count);
}

function deviationOf(sets: readonly Deviations[], ofGauge: number): number | undefined {
  const several = sets.filter(({ values }) => values.length > 1);
  const freedom = sumOf(several, (set) => set.values.length - 1);
  if (freedom < freedomForDeviation) return undefined;
  return Math.max(ofGauge, Math.sqrt(sumOf(several, (set) => set.squares) / freedom));
}

/** Standard error of the mean of a set, at least what the gauge resolves; a single value has the uncertainty assumed for one, known to 25 % (8 degrees of freedom). */
function meanOfSet({ values, squares }: Deviations, correlation: number, ofGauge: number, ofOne: number): BaselineSet {
  const count = values.length;
  if (count < 2) return { uncertainty: ofOne, degreesOfFreedom: 8 };
  const effective = effectiveCount(count, correlation);
  const byRows = standardErrorOfMean(squares, count, effective);
  const byBatches = count >= rowsForBatches ? standardErrorByBatches(values, 0, count - 1, 0) : 0;
  if (Math.max(byRows, byBatches) < ofGauge) return { uncertainty: ofGauge, degreesOfFreedom: Infinity };
  return byBatches > byRows
    ? { uncertainty: byBatches, degreesOfFreedom: batches - 1 }
    : { uncertainty: byRows, degreesOfFreedom: effective - 1 };
}

/**
 * Standard errors of the means of the baseline readings before and after a test, and the noise of one reading. Rows a second apart are alike where gusts last longer: the mean of m rows is
 * worth that of m(1 − φ)/(1 + φ) independent ones. The day's gusts are the same before and after, so φ is estimated from both sets together.
 * @param before Rows in the order of time, Pa, at least one.
 * Source: JCGM 100:2008, 4.2.3, F.2.2.1 and G.4.2; autoregression of first order (Box and Jenkins, from memory). Its coverage is simulated by `npm run bench -- --coverage`.
 */
export function analyzeBaselines(
  before: readonly number[],
  after: readonly number[] | undefined,
  { resolution, ofOne }: BaselineAssumptions,
): BaselineScatter {
  const sets = [before, ...(after === undefined ? [] : [after])].map(deviationsOf);
  const ofGauge = resolution / Math.sqrt(12);
  const correlation = correlationOf(sets);
  const [first, second] = sets.map((set) => meanOfSet(set, correlation ?? 0, ofGauge, ofOne));
  return {
    before: first!,
    ...(second !== undefined && { after: second }),
    correlation,
    deviation: deviationOf(sets, ofGauge),
  };
}
