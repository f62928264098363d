import { logFlowAt } from "../leakage/line";
import type { LeakageFit } from "../leakage/curve";
import type { LeakageReading } from "../leakage/readings";
import type { ReadingResponse } from "./response";

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
  /** χ² = Σ r²/(u_q² + (n·u_P/Δp)²) of the residuals about the line. */
  readonly chiSquare: number;
  /** κ: the errors found over those stated or assumed. */
  readonly scale: number;
  /** N − 2 where the scatter gives the size, infinite where the statement does. */
  readonly degreesOfFreedom: number;
}

/**
 * κ² = χ²/(N − 2). The noise gives the random errors their shape, the scatter about the line gives them their size: noise in Pa weighs most at low pressures, so that a scatter pooled
 * over ln q understates the errors of n and of low-pressure results and overstates those at 50 Pa. Where both parts of the noise are stated κ is at least 1.
 * @param noise Its pressure or its flow above 0.
 * Source: JCGM 100:2008, 4.2 and F.2.3; the shape is the method's. Its coverage is simulated by `npm run bench -- --coverage`.
 */
export function randomScale(fit: LeakageFit, points: readonly LeakageReading[], noise: ReadingNoise): RandomScale {
  const degreesOfFreedom = points.length - 2;
  const chiSquare = points.reduce((sum, { pressure, flow }) => {
    const residual = Math.log(flow) - logFlowAt(fit, Math.log(pressure));
    return sum + (residual / Math.hypot(noise.flow, (fit.exponent * noise.pressure) / pressure)) ** 2;
  }, 0);
  const scale = Math.sqrt(chiSquare / degreesOfFreedom);
  return noise.stated && scale <= 1
    ? { chiSquare, scale: 1, degreesOfFreedom: Infinity }
    : { chiSquare, scale, degreesOfFreedom };
}

/** Standard uncertainty of an output from random errors of the size of the noise: √Σ[(X_i·u_P/Δp_i)² + (a_i·u_q)²]. */
export function noiseUncertainty(
  points: readonly LeakageReading[],
  { toFlow, toPressure }: ReadingResponse,
  noise: ReadingNoise,
): number {
  const squares = points.reduce(
    (sum, { pressure }, index) =>
      sum + ((toPressure[index]! * noise.pressure) / pressure) ** 2 + (toFlow[index]! * noise.flow) ** 2,
    0,
  );
  return Math.sqrt(squares);
}
