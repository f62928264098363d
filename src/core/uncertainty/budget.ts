import type { BudgetRow } from "./combination";
import type { PreparedTest } from "./model";
import type { Output } from "./output";
import { noiseUncertainty, readingResponse, sensitivity } from "./response";
import type { Source } from "./source";

/** The sources of a run: those that act in every run alike, and its own. */
export interface BudgetSources {
  readonly shared: readonly Source[];
  readonly own: readonly Source[];
}

/**
 * The budget of one output of one run: one row per source, those of both directions first, then the random errors of the readings. Their row "scatter" counts; "stated" shows what they would be at exactly the noise
 * that is stated or assumed, and is contained in it.
 * @param shared The sources that act in every run alike.
 * @param own Those of this run alone.
 * @param mark Ends the symbols of the random rows ("scatter_d"), so that the two directions keep theirs apart.
 */
export function budgetRows(
  test: PreparedTest,
  { shared, own }: BudgetSources,
  output: Output,
  mark: string,
): BudgetRow[] {
  const response = readingResponse(test, output);
  const { scale, degreesOfFreedom } = test.random;
  const ofNoise = noiseUncertainty(test.points, response, test.noise);
  const rowOf = (source: Source): BudgetRow => ({
    symbol: source.symbol,
    uncertainty: source.uncertainty,
    sensitivity: sensitivity(source, test, output, response),
    degreesOfFreedom: source.degreesOfFreedom,
  });
  const random = { sensitivity: 1, degreesOfFreedom, ofOneRun: true } as const;
  return [
    ...shared.map(rowOf),
    ...own.map((source) => ({ ...rowOf(source), ofOneRun: true as const })),
    { ...random, symbol: `scatter_${mark}`, uncertainty: scale * ofNoise },
    { ...random, symbol: `stated_${mark}`, uncertainty: ofNoise, degreesOfFreedom: Infinity, contained: true },
  ];
}
