import type { Stretch } from "./log";

function medianOfFew(values: number[]): number {
  values.sort((a, b) => a - b);
  const middle = values.length >> 1;
  return values.length % 2 === 1 ? values[middle]! : (values[middle - 1]! + values[middle]!) / 2;
}

/**
 * Running median of five of one stretch, written into `medians`; at the ends over the rows that there are. It only finds where the pressure is
 * steady: one wild row does not end a station.
 */
export function runningMedian(values: Float64Array, { first, last }: Stretch, medians: Float64Array): void {
  const end = (index: number) => {
    const [from, to] = [Math.max(first, index - 2), Math.min(last, index + 2)];
    medians[index] = medianOfFew([...values.subarray(from, to + 1)]);
  };
  const head = Math.min(first + 1, last);
  for (let index = first; index <= head; index++) end(index);
  // Five plain variables, not an array: this loop runs over every row of the log.
  let a = values[first]!;
  let b = values[first + 1]!;
  let c = values[first + 2]!;
  let d = values[first + 3]!;
  for (let index = first + 2; index <= last - 2; index++) {
    const e = values[index + 2]!;
    // The lower of the pairs' lower values and the higher of their higher ones cannot be the median of five; the rest is a median of three.
    // Math.min and Math.max compile to instructions without a branch, which readings that go up and down would mispredict.
    const x = Math.max(Math.min(a, b), Math.min(c, d));
    const y = Math.min(Math.max(a, b), Math.max(c, d));
    medians[index] = Math.max(Math.min(x, y), Math.min(e, Math.max(x, y)));
    a = b;
    b = c;
    c = d;
    d = e;
  }
  for (let index = Math.max(head + 1, last - 1); index <= last; index++) end(index);
}
