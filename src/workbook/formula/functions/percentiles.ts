import { errors, finite, type Scalar } from "../values/value";
import { roundDecimal } from "./rounding";

/** The value below which a share of sorted numbers lies, the ends included. */
export function percentileInclusive(sorted: readonly number[], share: number): Scalar {
  if (sorted.length === 0 || !(share >= 0 && share <= 1)) return errors.number;
  return between(sorted, share * (sorted.length - 1));
}

/** The same with the ends left out. */
export function percentileExclusive(sorted: readonly number[], share: number): Scalar {
  const place = share * (sorted.length + 1);
  if (sorted.length === 0 || !(place >= 1 && place <= sorted.length)) return errors.number;
  return between(sorted, place - 1);
}

function between(sorted: readonly number[], place: number): Scalar {
  const low = Math.floor(place);
  const lower = sorted[low] ?? 0;
  const upper = sorted[Math.min(low + 1, sorted.length - 1)] ?? lower;
  return finite(lower + (place - low) * (upper - lower));
}

/** The share of sorted numbers below a value, between two of them by interpolation, cut to some digits. */
export function percentRank(sorted: readonly number[], value: number, digits: number, inclusive: boolean): Scalar {
  if (sorted.length === 0 || digits < 1) return errors.number;
  const last = sorted[sorted.length - 1] ?? 0;
  const first = sorted[0] ?? 0;
  if (!(value >= first && value <= last)) return errors.notAvailable;
  const at = sorted.findIndex((number) => number >= value);
  const upper = sorted[at] ?? last;
  const lower = sorted[at - 1] ?? upper;
  const place = upper === value ? at : at - 1 + (value - lower) / (upper - lower);
  if (inclusive && sorted.length === 1) return 1;
  const share = inclusive ? place / (sorted.length - 1) : (place + 1) / (sorted.length + 1);
  return roundDecimal(share, digits, "down");
}
