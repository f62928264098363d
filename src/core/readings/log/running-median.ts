import type { Stretch } from "./log";

// Looked up once, not for every row: not every host makes that cheap.
const { max, min } = Math;

/** How many rows on either side the running median looks at. */
export const reach = 2;

function medianOfFew(values: number[]): number {
  values.sort((a, b) => a - b);
  const middle = values.length >> 1;
  return values.length % 2 === 1 ? values[middle]! : (values[middle - 1]! + values[middle]!) / 2;
}

/** The running median of five of one stretch at a row; at the ends over the rows that there are. It only finds where the pressure is steady: one wild row does not end a station. */
export function medianAt(values: Float64Array, { first, last }: Stretch, index: number): number {
  if (index < first + reach || index > last - reach) {
    return medianOfFew([...values.subarray(max(first, index - reach), min(last, index + reach) + 1)]);
  }
  const [a, b, c] = [values[index - 2]!, values[index - 1]!, values[index]!];
  const [d, e] = [values[index + 1]!, values[index + 2]!];
  // The lower of the pairs' lower values and the higher of their higher ones cannot be the median of five; the rest is a median of three.
  const x = max(min(a, b), min(c, d));
  const y = min(max(a, b), max(c, d));
  return max(min(x, y), min(e, max(x, y)));
}
