/** Relative slack of every comparison with a limit: the mean of 0.56 and 0.64 is 0.6000000000000001 in binary and must pass 0.6. */
const slack = 1e-9;

/** Equal within the slack; Infinity is equal to itself alone. */
export function equal(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b)) <= slack;
}

/** Less than or equal to a limit, within the slack. The one comparison of the project with a limit. */
export function atMost(value: number, limit: number): boolean {
  return value < limit || equal(value, limit);
}
