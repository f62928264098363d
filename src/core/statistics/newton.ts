/**
 * The value that Newton steps towards a positive root settle on. Steps of less than 2e-14 of it carry only rounding: the functions that are solved are right to 1e-13, and a finer
 * stop is never met for a third of the whole degrees of freedom.
 */
export function settledOn(start: number, next: (value: number) => number): number {
  let value = start;
  for (let count = 0; count < 100; count++) {
    const after = next(value);
    if (Math.abs(after - value) <= 2e-14 * after) return after;
    value = after;
  }
  return value;
}
