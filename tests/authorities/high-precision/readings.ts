import type { Exact } from "./decimal";
import { exact, mean } from "./decimal";

export type Direction = "depressurization" | "pressurization";
export type FlowBasis = "indicated at calibration density" | "actual at the fan" | "through the envelope";

export interface Baseline {
  readonly before: Exact;
  readonly after: Exact;
  readonly test: Exact;
}

/** Zero-flow pressures in Pa: the mean of each set, and the mean of the two means. */
export function baselinePressure(before: readonly number[], after: readonly number[]): Baseline {
  const first = mean(before.map(exact));
  const second = mean(after.map(exact));
  return { before: first, after: second, test: first.plus(second).dividedBy(2) };
}

/** Induced pressures in Pa, signed: each reading less the baseline. */
export function inducedPressures(readings: readonly number[], baseline: Exact): Exact[] {
  return readings.map((reading) => exact(reading).minus(baseline));
}

/** Flow of a device in its calibration's unit, c·p^m. */
export function deviceFlow(pressure: number, coefficient: number, exponent: number): Exact {
  return exact(coefficient).times(exact(pressure).pow(exact(exponent)));
}

/** Factor for the density of the air at the device: the square root of calibration over actual. */
export function deviceFactor(calibrationDensity: Exact, actualDensity: Exact): Exact {
  return calibrationDensity.dividedBy(actualDensity).sqrt();
}

/** Factor from the flow at the fan to the flow through the envelope, by the balance of mass. */
export function envelopeFactor(direction: Direction, indoorDensity: Exact, outdoorDensity: Exact): Exact {
  return direction === "depressurization"
    ? indoorDensity.dividedBy(outdoorDensity)
    : outdoorDensity.dividedBy(indoorDensity);
}

/** Factor from what the flow column holds to the flow through the envelope. */
export function flowFactor(
  basis: FlowBasis,
  direction: Direction,
  indoorDensity: Exact,
  outdoorDensity: Exact,
  calibrationDensity: Exact,
): Exact {
  if (basis === "through the envelope") return exact(1);
  const throughEnvelope = envelopeFactor(direction, indoorDensity, outdoorDensity);
  if (basis === "actual at the fan") return throughEnvelope;
  const atDevice = direction === "depressurization" ? indoorDensity : outdoorDensity;
  return throughEnvelope.times(deviceFactor(calibrationDensity, atDevice));
}
