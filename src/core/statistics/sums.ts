/**
 * Arithmetic mean, corrected once by the mean of the deviations, so that a large common part (1e15 + 1, 1e15 + 2, …) costs no digits.
 * Source: T. F. Chan, G. H. Golub, R. J. LeVeque, "Algorithms for computing the sample variance", The American Statistician 37 (1983), two-pass form.
 */
export function mean(values: readonly number[]): number {
  const count = values.length;
  let sum = 0;
  for (let index = 0; index < count; index++) sum += values[index]!;
  const first = sum / count;
  let rest = 0;
  for (let index = 0; index < count; index++) rest += values[index]! - first;
  return first + rest / count;
}
