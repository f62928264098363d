/** The value that Newton steps towards a positive root settle on: steps of less than five units in its last place only carry rounding. */
export function settledOn(start: number, next: (value: number) => number): number {
  let value = start;
  for (let count = 0; count < 100; count++) {
    const after = next(value);
    if (Math.abs(after - value) <= 1e-15 * after) return after;
    value = after;
  }
  return value;
}
