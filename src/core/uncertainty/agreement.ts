import type { Limits } from "../leakage/curve";

export type Agreement = "validated" | "acceptable" | "neither";

/**
 * Whether a simulation confirms the limits of a budget: both ends within half a unit of the second significant digit of u ("validated"), of the first
 * ("acceptable"), or not.
 * Source: JCGM 101:2008, 8.1 and 7.9.2.
 */
export function agreement(
  budget: Pick<Limits, "lower" | "upper">,
  simulated: Pick<Limits, "lower" | "upper">,
  standardUncertainty: number,
): Agreement {
  const difference = Math.max(Math.abs(budget.lower - simulated.lower), Math.abs(budget.upper - simulated.upper));
  const unit = 10 ** Math.floor(Math.log10(standardUncertainty));
  if (difference <= unit / 20) return "validated";
  return difference <= unit / 2 ? "acceptable" : "neither";
}
