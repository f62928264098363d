import { atMost } from "../judgement/comparison";

/**
 * How much the exponent may change per unit of ln Δp, half-width. A power law stands for leaks that do not all follow one: fitted to a crack and a hole in series or side by side, with n
 * from 0.60 to 0.75, its worst misfit at any pressure is that of a bend of 0.095. An assumption of the method, recomputed from the two laws in the tests; to be shown and editable.
 */
export const usualBend = 0.095;

/** True where a pressure lies beyond the readings, to which the line is only extended. */
export function isBeyond(pressure: number, readings: readonly { readonly pressure: number }[]): boolean {
  let [lowest, highest] = [Infinity, 0];
  for (const reading of readings) {
    lowest = Math.min(lowest, reading.pressure);
    highest = Math.max(highest, reading.pressure);
  }
  return !(atMost(lowest, pressure) && atMost(pressure, highest));
}

/**
 * Error of ln q at ℓ = ln Δp per unit of a bend dn/d ln Δp of the true curve: ½·Σ a_i·(x_i − ℓ)². The a_i add up to 1 and their mean of x is ℓ, so that a straight line leaves no error.
 * @param toFlow a_i = ∂ln q_p/∂ln q_i.
 */
export function bendResponse(
  logPressure: number,
  readings: readonly { readonly pressure: number }[],
  toFlow: readonly number[],
): number {
  return (
    readings.reduce((sum, { pressure }, index) => sum + toFlow[index]! * (Math.log(pressure) - logPressure) ** 2, 0) / 2
  );
}
