import type { LeakageFit } from "../leakage/curve";
import { moments, weightsOf } from "../leakage/least-squares";
import { logReadings, type LeakageReading } from "../leakage/readings";
import { chiSquareProbability } from "../statistics/distributions";

/** Random error of one reading, standard: what differs from reading to reading, gusts above all. */
export interface ReadingNoise {
  /** u_P, Pa. */
  readonly pressure: number;
  /** u_q, of ln q. */
  readonly flow: number;
  /** True where the tester states both: a scatter smaller than that is then taken as chance. */
  readonly stated: boolean;
}

/** How large the random errors are, measured by the noise that is stated or assumed. */
export interface RandomScale {
  /** χ², the weighted squares of the residuals about the line that makes them least. */
  readonly chiSquare: number;
  /** κ: the errors found over those stated or assumed. */
  readonly scale: number;
  /** N − 2 where the scatter gives the size, infinite where the statement does. */
  readonly degreesOfFreedom: number;
}

/** Above this probability of χ² the scatter is larger than what is stated, below the other it is smaller. */
export const scatterBounds = { smaller: 0.025, larger: 0.975 };

/** Probability that χ² is this large or less by chance; undefined for logs of so many rows that any scatter would differ from what was stated. */
export function scatterProbability({ chiSquare }: Pick<RandomScale, "chiSquare">, count: number): number | undefined {
  return count > 100_000 ? undefined : chiSquareProbability(chiSquare, count - 2);
}

/**
 * κ² = χ²/(N − 2), χ² = Σ w·r², w = 1/(u_q² + (n·u_P/Δp)²), r the residuals about the line fitted with these weights: only that χ² has N − 2 as its expectation, whatever line the technique
 * draws. The noise gives the random errors their shape, the scatter gives them their size: noise in Pa weighs most at low pressures, so that a scatter pooled over ln q understates the errors
 * of n and of low-pressure results and overstates those at 50 Pa. Where both parts of the noise are stated κ is at least 1, and the statement counts as known unless the scatter contradicts it.
 * @param noise Its pressure or its flow above 0.
 * Source: JCGM 100:2008, 4.2 and F.2.3; ISO/TS 28037:2010 for χ²; the shape is the method's. The coverage is simulated by `npm run bench -- --coverage`.
 */
export function randomScale(
  { exponent }: Pick<LeakageFit, "exponent">,
  points: readonly LeakageReading[],
  noise: ReadingNoise,
): RandomScale {
  const count = points.length;
  const deviations = points.map(({ pressure }) => Math.hypot(noise.flow, (exponent * noise.pressure) / pressure));
  const { weights, unit } = weightsOf(deviations);
  const { h, k, sumXX, sumXY } = moments(logReadings(points, "ordinary"), weights);
  const slope = sumXY / sumXX;
  const chiSquare = weights.reduce(
    (sum, weight, index) => sum + weight * ((k[index]! - slope * h[index]!) / unit) ** 2,
    0,
  );
  const scale = Math.sqrt(chiSquare / (count - 2));
  if (!noise.stated) return { chiSquare, scale, degreesOfFreedom: count - 2 };
  const probability = scatterProbability({ chiSquare }, count);
  const isContradicted = probability === undefined ? scale > 1 : probability > scatterBounds.larger;
  return { chiSquare, scale: Math.max(1, scale), degreesOfFreedom: isContradicted ? count - 2 : Infinity };
}
