import { densityCorrection } from "../air/density-correction";
import { airAtDevice, type Direction, type InsideOutside } from "../direction";
import { deviceDensityFactor } from "./fan-flow";

/** What a column of flows holds. It is never guessed: at −10 °C outdoors the wrong answer costs 5 %. */
export const flowBases = ["indicated at calibration density", "actual at the fan", "through the envelope"] as const;

export type FlowBasis = (typeof flowBases)[number];

/**
 * Factor from the flow as it stands in the column to the flow through the envelope.
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
