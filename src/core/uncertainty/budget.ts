import type { BudgetRow } from "./combination";
import type { PreparedTest } from "./model";
import type { Output } from "./output";
import { randomPart, type StatedNoise } from "./random";
import { readingResponse, sensitivity } from "./response";
import type { Source } from "./source";

/**
 * The budget of one output of one direction: a row a source, then the random part from the scatter and as stated, of which the larger counts.
 * @param mark Ends the symbols of the random rows ("scatter_d"), so that the two directions keep theirs apart.
 */
export function budgetRows(
  test: PreparedTest,
  sources: readonly Source[],
  output: Output,
  noise: StatedNoise,
  mark: string,
): BudgetRow[] {
  const response = readingResponse(test, output);
  const { scatter, stated, mode } = randomPart(test, output, response, noise);
  const rows = sources.map((source): BudgetRow => {
    const { symbol, degreesOfFreedom, effect } = source;
    const c = sensitivity(source, test, output, response);
    // Its half-width belongs to this direction's readings, so it is shown as the uncertainty, not as the sensitivity to something between −1 and 1.
    return effect === "extrapolation"
      ? { symbol, uncertainty: source.uncertainty * c, sensitivity: 1, degreesOfFreedom }
      : { symbol, uncertainty: source.uncertainty, sensitivity: c, degreesOfFreedom };
  });
  const random = (name: RandomRow, uncertainty: number, degreesOfFreedom: number): BudgetRow => ({
    symbol: `${name}_${mark}`,
    uncertainty,
    sensitivity: 1,
    degreesOfFreedom,
    ...(mode !== name && { contained: true as const }),
  });
  return [...rows, random("scatter", scatter, test.fit.degreesOfFreedom), random("stated", stated, Infinity)];
}

type RandomRow = "scatter" | "stated";
