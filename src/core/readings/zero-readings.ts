/**
 * How many readings are exactly 0, all of them included: a gauge of 0.1 Pa seldom shows exactly 0 in a house, but some hosts hand over a blank cell as 0, which
 * pulls the mean of a baseline towards 0. Common practice, no source.
 * @param readings Baseline readings, Pa.
 */
export function countExactZeros(readings: readonly number[]): number {
  return readings.filter((reading) => reading === 0).length;
}
