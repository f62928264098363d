import { densityCorrection } from "../air/viscosity";
import { airAtDevice, type Direction, type InsideOutside } from "../direction";
import { ensure, requireNotNegative, requirePositive } from "../errors";

/** Calibration of one opening of a flow device, from its certificate. */
export interface FlowCalibration {
  /** c in q = c·f^m, in the unit of flow at 1 Pa. */
  readonly coefficient: number;
  /** m in q = c·f^m. */
  readonly exponent: number;
  /** Valid range of fan pressures, Pa. */
  readonly lowest?: number | undefined;
  readonly highest?: number | undefined;
}

/** Densities between which an indicated flow is corrected, in one unit. */
interface DeviceDensities {
  readonly calibration: number;
  readonly actual: number;
}

/** Factor from an indicated flow to the actual one: √(ρ_cal/ρ). Source: ISO 9972:2015 and ASTM E779, flow device; orifice equation. */
export function deviceDensityFactor({ calibration, actual }: DeviceDensities): number {
  requirePositive(calibration, "calibration density");
  requirePositive(actual, "actual density");
  const ratio = calibration / actual;
  ensure(ratio >= 0.5 && ratio <= 2, "calibration density", "densityUnits", { calibration, actual });
  return Math.sqrt(calibration / actual);
}

/**
 * Flow of a calibrated device: q_r = c·f^m, times √(ρ_cal/ρ) where the densities are given; result in the unit of c.
 * Errors: a fan pressure not above 0 or outside the opening's valid range (never extrapolated), coefficient or exponent not above 0, a range below 0.
 * Source: the device's calibration certificate; power law as in ISO 9972:2015 and ASTM E779.
 * Example: fanFlow(100, { coefficient: 50, exponent: 0.5 }, { calibration: 1.2041, actual: 1.29 }) → 483.07
 */
export function fanFlow(fanPressure: number, calibration: FlowCalibration, densities?: DeviceDensities): number {
  const { coefficient, exponent, lowest = 0, highest = Infinity } = calibration;
  requirePositive(fanPressure, "fan pressures");
  requirePositive(coefficient, "coefficients");
  ensure(exponent > 0 && exponent <= 2, "exponents", "aboveZeroUpTo", { highest: 2, got: exponent });
  requireNotNegative(lowest, "lowest");
  ensure(!(highest < lowest), "highest", "highestNotAbove", { lowest, got: highest });
  ensure(fanPressure >= lowest && fanPressure <= highest, "fan pressures", "outsideCalibration", {
    reading: fanPressure,
    lowest,
    highest,
  });
  const indicated = coefficient * Math.pow(fanPressure, exponent);
  return densities === undefined ? indicated : indicated * deviceDensityFactor(densities);
}

/** What a column of flows holds. It is never guessed: at −10 °C outdoors the wrong answer costs 5 %. */
export const flowBases = ["indicated at calibration density", "actual at the fan", "through the envelope"] as const;

export type FlowBasis = (typeof flowBases)[number];

/**
 * Factor from the flow in the column to the flow through the envelope.
 * Source: ISO 9972:2015, calculation of the air leakage rate; ASTM E779.
 */
export function flowFactor(
  basis: FlowBasis,
  direction: Direction,
  density: InsideOutside,
  calibrationDensity: number,
): number {
  switch (basis) {
    case "through the envelope":
      return 1;
    case "actual at the fan":
      return densityCorrection(direction, density);
    case "indicated at calibration density": {
      const device = { calibration: calibrationDensity, actual: airAtDevice(direction, density) };
      return deviceDensityFactor(device) * densityCorrection(direction, density);
    }
  }
}
