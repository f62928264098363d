import { ErrorValue } from "../../model";
import { order } from "../values/comparison";
import { refuse } from "../values/refusal";
import type { Scalar } from "../values/value";
import { spend } from "../values/work";

interface Level {
  readonly keys: readonly Scalar[];
  readonly descending: boolean;
}

/** Numbers, then text, then FALSE and TRUE, then errors; blanks come last in either direction. */
const rank = (value: Scalar): number =>
  value === null
    ? 4
    : value instanceof ErrorValue
      ? 3
      : typeof value === "boolean"
        ? 2
        : typeof value === "string"
          ? 1
          : 0;

const errorOrder = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"];

/** Errors sort by their numbers (ERROR.TYPE). */
function errorRank(value: Scalar): number {
  const place = value instanceof ErrorValue ? errorOrder.indexOf(value.code) : -1;
  return place >= 0 ? place : refuse("newer error values sorted");
}

/** The order of places that sorts by several keys; equal ones keep their order. */
export function sortedOrder(levels: readonly Level[]): number[] {
  const places = Array.from({ length: levels[0]?.keys.length ?? 0 }, (_, place) => place);
  spend(5 * places.length * Math.ceil(Math.log2(places.length + 1)));
  return places.sort((a, b) => {
    for (const { keys, descending } of levels) {
      const one = keys[a] ?? null;
      const other = keys[b] ?? null;
      const ranks = rank(one) - rank(other);
      if (one === null || other === null) {
        if (ranks !== 0) return ranks;
        continue;
      }
      const difference =
        ranks !== 0 ? ranks : one instanceof ErrorValue ? errorRank(one) - errorRank(other) : order(one, other);
      if (difference !== 0) return descending ? -difference : difference;
    }
    return a - b;
  });
}
