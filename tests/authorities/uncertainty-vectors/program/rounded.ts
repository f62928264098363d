import type { Exact } from "../../high-precision/decimal";

/** A number of the vectors: fifteen digits. */
export function rounded(value: Exact): number {
  return Number(value.toPrecision(15));
}
