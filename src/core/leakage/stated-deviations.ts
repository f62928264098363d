import { ensure } from "../errors";
import type { LogReadings } from "./log-readings";

/**
 * Standard deviation with which each reading should lie off the line in y, by its stated uncertainties: √(u_y² + n²·u_x² − 2nρ·u_x·u_y), as a sum of two
 * squares. Undefined where none were stated.
 */
export function statedDeviations(logs: LogReadings, exponent: number): number[] | undefined {
  const { uncertaintyX, uncertaintyY, correlation } = logs;
  return uncertaintyY?.map((deviation, index) => {
    const across = exponent * (uncertaintyX?.[index] ?? 0);
    const rho = correlation?.[index] ?? 0;
    return Math.hypot(deviation - rho * across, across * Math.sqrt(1 - rho * rho));
  });
}

/** Weights 1/σ² over the largest of them, and the σ of weight 1. Errors: a deviation of 0, which no weight can follow. */
export function weightsOf(deviations: readonly number[]): { weights: number[]; unit: number } {
  const unit = deviations.reduce((least, deviation) => Math.min(least, deviation), Infinity);
  ensure(unit > 0 && unit < Infinity, "flow_uncertainty", "too small or too large to weigh the readings by");
  return { weights: deviations.map((deviation) => (unit / deviation) ** 2), unit };
}
