import { signOf, type Direction } from "../direction";
import { ensure, missing, requirePositive } from "../errors";

/** A pressure to set: what the test needs, and what the gauge then shows. Pa. */
export interface PressureStation {
  readonly induced: number;
  readonly displayed: number;
}

const mostStations = 1000;

/** The pressures of a test, Pa. */
export interface StationRange {
  readonly lowest: number;
  readonly highest: number;
  readonly count: number;
}

/**
 * Pressures to set, in equal steps from the highest to the lowest, signed by the direction; without a direction both are magnitudes. The gauge shows the
 * induced pressure plus the baseline, indoors minus outdoors.
 * Errors: lowest or highest not above 0, highest below lowest, a count that is not a whole number from 2 to 1 000, a baseline without its direction
 * (missing), a baseline that the lowest pressure does not exceed.
 * Source: ISO 9972:2015, induced pressure difference; equal steps are common practice.
 * Example: pressureStations({ lowest: 10, highest: 60, count: 3 }, "depressurization", -2)
 *   → [{ induced: -60, displayed: -62 }, { induced: -35, displayed: -37 }, { induced: -10, displayed: -12 }]
 */
export function pressureStations(
  { lowest, highest, count }: StationRange,
  direction?: Direction,
  baseline?: number,
): PressureStation[] {
  requirePositive(lowest, "lowest");
  requirePositive(highest, "highest");
  ensure(highest > lowest, "highest", "highestNotAbove", { lowest, got: highest });
  ensure(Number.isInteger(count) && count >= 2 && count <= mostStations, "count", "wholeNumber", {
    lowest: 2,
    highest: mostStations,
    got: count,
  });
  if (baseline !== undefined && direction === undefined) throw missing("direction", "notGiven");
  const sign = direction === undefined ? 1 : signOf(direction);
  const shift = baseline ?? 0;
  ensure(lowest + sign * shift > 0, "baseline", "belowBaseline", { pressure: lowest, baseline: shift });
  return Array.from({ length: count }, (_, index) => {
    const share = index / (count - 1);
    const induced = sign * (share === 1 ? lowest : highest - share * (highest - lowest));
    return { induced, displayed: induced + shift };
  });
}
