/**
 * How many readings are exactly 0 while others are not. A gauge that resolves 0.1 Pa seldom shows exactly 0.0 at an outlet of a house that has a
 * baseline, but some hosts send a blank cell as 0. Where every reading is 0 there is no doubt that they were typed, and the count is 0.
 * Common practice, no source.
 */
export function countExactZeros(readings: readonly number[]): number {
  const zeros = readings.filter((reading) => reading === 0).length;
  return zeros === readings.length ? 0 : zeros;
}
