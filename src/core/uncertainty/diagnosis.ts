import { atMost, largest, smallest } from "../numbers";
import type { BudgetPart, BudgetRow, BudgetSources, Combination } from "./budget";
import { isBeyond, pressureChangeOf } from "./response";
import type { Output, PreparedTest, Source } from "./model";
import { scatterBounds, scatterProbability } from "./random-scale";

/** The diagnosis of the test that accompanies the budget. */
export interface Diagnosis {
  /** Too few readings while the scatter counts: a budget of N − 2 ≤ 4 is wide, and its law uncertain. */
  readonly fewReadings: boolean;
  /** An induced pressure is uncertain by more than a tenth: n and low pressures are weak and skewed. */
  readonly weak: boolean;
  /** By so much that one trial in a thousand could not even be evaluated. */
  readonly unusable: boolean;
  /** Pa, ten times the largest u(Δp): readings below it weaken the test. */
  readonly weakBelow: number;
  /** The wind's offset exceeds a fifth of the lowest induced pressure: first order is not valid, and no uncertainty can be given. */
  readonly tooWindy: boolean;
  readonly extrapolated: boolean;
  /** The baseline's movement makes up most of the uncertainty. */
  readonly baselineMoved: boolean;
  /** Scatter against what is stated of the readings; undefined where nothing is. */
  readonly scatter: "larger than stated" | "smaller than stated" | "as stated" | undefined;
}

/** u(Δp_i)/Δp_i beyond which a normal error turns one induced pressure in a thousand below 0: 1/3.09. */
const oneInAThousand = 1 / 3.0902;

/** Standard uncertainty of each induced pressure, Pa, from everything that shifts it but the gauge's gain. */
function inducedPressureUncertainties(test: PreparedTest, sources: readonly Source[]): number[] {
  return test.readings.map((reading) =>
    Math.hypot(
      test.random.scale * test.noise.pressure,
      ...sources.map(({ effect, uncertainty }) => pressureChangeOf(effect, reading, test) * uncertainty),
    ),
  );
}

function againstStated({ points, random }: PreparedTest): Diagnosis["scatter"] {
  const probability = scatterProbability(random, points.length);
  if (probability === undefined) return undefined;
  if (probability > scatterBounds.larger) return "larger than stated";
  return probability < scatterBounds.smaller ? "smaller than stated" : "as stated";
}

/**
 * @param sources The sources that act in every run alike, and those of this run alone; the only offset of a single run is the wind's.
 * @param rows The budget, of this direction or of the mean of both, with its combination.
 * @param noiseIsStated Whether the tester states the noise of a reading, so that the scatter can be compared with it.
 */
export function diagnose(
  test: PreparedTest,
  { shared, own }: BudgetSources,
  output: Output,
  rows: readonly BudgetRow[],
  { shares }: Combination,
  noiseIsStated: boolean,
): Diagnosis {
  const shareOf = (wanted: BudgetPart) =>
    rows.reduce((sum, { part }, index) => sum + (part === wanted ? shares[index]! : 0), 0);
  const uncertainties = inducedPressureUncertainties(test, [...shared, ...own]);
  const worst = largest(test.points.map(({ pressure }, index) => uncertainties[index]! / pressure));
  const lowest = smallest(test.points.map(({ pressure }) => pressure));
  const wind = own.find(({ effect }) => effect === "offset")?.uncertainty ?? 0;
  return {
    fewReadings: test.points.length <= 6 && shareOf("scatter") > 0.2,
    weak: !atMost(worst, 0.1),
    unusable: !atMost(worst, oneInAThousand),
    weakBelow: 10 * largest(uncertainties),
    tooWindy: !atMost(wind * Math.sqrt(3), 0.2 * lowest),
    extrapolated: output.of === "flow" && output.ofLine !== true && isBeyond(output.pressure, test.points),
    baselineMoved: shareOf("movement") > 0.5,
    scatter: noiseIsStated ? againstStated(test) : undefined,
  };
}
