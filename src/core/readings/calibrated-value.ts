import { atMost } from "../numbers";
import { ensure, missing } from "../errors";

/** One line of a calibration certificate: what the instrument showed, and what was true. */
export interface CalibrationPoint {
  readonly reading: number;
  readonly value: number;
  /** Its row in the table, counted from 1. */
  readonly row: number;
}

/**
 * A certificate's points in rising order of the reading.
 * Errors: fewer than two points (missing); the same reading twice; a true value that falls, as where two cells were swapped.
 */
export function calibrationTable(points: readonly CalibrationPoint[]): readonly CalibrationPoint[] {
  if (points.length < 2) {
    throw missing("table", "tooFew", { least: 2, of: "calibration points", count: points.length });
  }
  const rising = [...points].sort((a, b) => a.reading - b.reading);
  for (let index = 1; index < rising.length; index++) {
    const { reading, value, row } = rising[index]!;
    const before = rising[index - 1]!;
    ensure(reading !== before.reading, "table", "twice", { what: reading }, row);
    ensure(value >= before.value, "table", "pointFalls", { value }, row);
  }
  return rising;
}

/**
 * The true value for a reading, interpolated linearly between the points of a certificate.
 * Errors: a reading outside the table; nothing is extrapolated.
 * Source: the instrument's calibration certificate; linear interpolation.
 * Example: calibratedValue(31, [{ reading: 25, value: 25.2, row: 1 }, { reading: 50, value: 50.8, row: 2 }]) → 31.344
 */
export function calibratedValue(reading: number, table: readonly CalibrationPoint[]): number {
  const [first, last] = [table[0]!, table.at(-1)!];
  ensure(atMost(first.reading, reading) && atMost(reading, last.reading), "reading", "outsideCalibration", {
    reading,
    lowest: first.reading,
    highest: last.reading,
  });
  let [below, above] = [0, table.length - 1];
  while (above - below > 1) {
    const middle = (below + above) >> 1;
    if (table[middle]!.reading <= reading) below = middle;
    else above = middle;
  }
  const [from, to] = [table[below]!, table[above]!];
  const share = Math.min(1, Math.max(0, (reading - from.reading) / (to.reading - from.reading)));
  return from.value * (1 - share) + to.value * share;
}
