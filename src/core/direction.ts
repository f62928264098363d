/** The two directions of a test, in ISO 9972's words. */
export const directions = ["depressurization", "pressurization"] as const;

export type Direction = (typeof directions)[number];

/**
 * The sign of the pressure difference indoors minus outdoors: −1 depressurization, +1 pressurization.
 * Example: signOf("depressurization") → -1
 */
export function signOf(direction: Direction): 1 | -1 {
  return direction === "pressurization" ? 1 : -1;
}

/** Indoor and outdoor value of one quantity. */
export interface InsideOutside {
  readonly indoor: number;
  readonly outdoor: number;
}

/** The air at the flow device, and the air on the far side of the envelope: the device sees indoor air when depressurizing. */
export function airAtDevice(direction: Direction, air: InsideOutside): number {
  return direction === "pressurization" ? air.outdoor : air.indoor;
}

/** The air that goes through the leaks: outdoor air when depressurizing, indoor air when pressurizing. ISO 9972:2015 (from memory). */
export function airAtLeaks(direction: Direction, air: InsideOutside): number {
  return direction === "pressurization" ? air.indoor : air.outdoor;
}
