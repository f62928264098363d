import { ErrorValue } from "../../model";
import { order, sameDigits, sameText } from "../values/comparison";
import { refuse } from "../values/refusal";
import type { Scalar } from "../values/value";
import { hasWildcards, refuseIdleTilde, unescaped, wildcardTest } from "./wildcards";

/** What is looked up: no error, no blank. */
export type Wanted = number | string | boolean;

/** The value to look up; a blank cell is refused where a 0 or a blank in the list could answer it. */
export function wantedOf(value: Exclude<Scalar, ErrorValue>, list: readonly Scalar[]): Wanted | undefined {
  if (value !== null) return value;
  return list.some((element) => element === 0 || element === null || element === "" || element === false)
    ? refuse("a blank looked up in a list with blanks or zeros")
    : undefined;
}

/** A test for equality with a value looked up; numbers that are the same only to 15 digits are refused. */
function equalTo(wanted: Wanted, wildcards: boolean): (value: Scalar) => boolean {
  if (typeof wanted === "string" && wildcards) {
    refuseIdleTilde(wanted);
    const matches = hasWildcards(wanted) ? wildcardTest(wanted) : (text: string) => sameText(text, unescaped(wanted));
    return (value) => typeof value === "string" && matches(value);
  }
  return (value) => {
    if (typeof value !== typeof wanted) return false;
    if (typeof value === "string" && typeof wanted === "string") return sameText(value, wanted);
    if (typeof value === "number" && typeof wanted === "number" && value !== wanted && sameDigits(value, wanted)) {
      refuse("a number looked up that differs from the list only by rounding error");
    }
    return value === wanted;
  };
}

/** The first (or last) place of an equal value, or −1. */
export function exactPlace(list: readonly Scalar[], wanted: Wanted, wildcards: boolean, fromEnd = false): number {
  const test = equalTo(wanted, wildcards);
  return fromEnd ? lastPlace(list, test) : list.findIndex(test);
}

/**
 * The place of the last value not above (ascending) or not below (descending) in a sorted list, or −1. Excel halves the list
 * without looking whether it is sorted; on an unsorted one its answer is an accident, and it is refused.
 */
export function sortedPlace(list: readonly Scalar[], wanted: Wanted, direction: "ascending" | "descending"): number {
  const sign = direction === "ascending" ? 1 : -1;
  // A value above all others leads to the last one, sorted or not: LOOKUP(2, 1/(condition), …), LOOKUP(9.9E+307, A:A).
  const isAlike = (value: Scalar): boolean => typeof value === typeof wanted;
  if (sign > 0 && list.every((value) => !isAlike(value) || order(value, wanted) < 0)) return lastPlace(list, isAlike);
  let found = -1;
  let previous: Scalar = null;
  for (const [place, value] of list.entries()) {
    if (value instanceof ErrorValue) return refuse("an error value in a list searched as sorted");
    if (value === null || typeof value !== typeof wanted) continue;
    const step = previous === null ? 0 : order(value, previous) * sign;
    if (step < 0) return refuse("a list searched as sorted that is not");
    const difference = order(value, wanted) * sign;
    if (difference === 0 && value !== wanted && typeof value === "number")
      refuse("a number looked up that differs from the list only by rounding error");
    if (difference === 0 && step === 0 && previous !== null && sign < 0)
      refuse("equal values in a list searched downwards");
    if (difference <= 0) found = place;
    previous = value;
  }
  return found;
}

/** Refuses a list in which a search by halves finds what it finds by accident: unsorted, mixed, or with equal values. */
export function refuseUnsorted(list: readonly Scalar[], direction: "ascending" | "descending"): void {
  const sign = direction === "ascending" ? 1 : -1;
  const isOrdered = list.every((value, place) => {
    if (value === null || value instanceof ErrorValue || typeof value !== typeof list[0]) return false;
    return place === 0 || order(value, list[place - 1] ?? null) * sign > 0;
  });
  if (!isOrdered) refuse(`a binary search in a list that is not strictly ${direction}`);
}

function lastPlace(list: readonly Scalar[], test: (value: Scalar) => boolean): number {
  let place = list.length - 1;
  while (place >= 0 && !test(list[place] ?? null)) place -= 1;
  return place;
}

/** XLOOKUP's next smaller or larger value when none is equal; the list need not be sorted. */
export function nearestPlace(
  list: readonly Scalar[],
  wanted: Wanted,
  side: "smaller" | "larger",
  fromEnd: boolean,
): number {
  const exact = exactPlace(list, wanted, false, fromEnd);
  if (exact >= 0) return exact;
  let best = -1;
  for (const [place, value] of list.entries()) {
    if (value === null || value instanceof ErrorValue || typeof value !== typeof wanted) continue;
    const difference = order(value, wanted);
    if (side === "smaller" ? difference > 0 : difference < 0) continue;
    const current = best < 0 ? null : (list[best] ?? null);
    const better = current === null ? 1 : order(value, current) * (side === "smaller" ? 1 : -1);
    if (better > 0 || (better === 0 && fromEnd)) best = place;
  }
  return best;
}
