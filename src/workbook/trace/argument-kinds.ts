import type { BaseKind, FunctionEntry } from "../formula/calls/function-entry";

/** What a function does with the argument in a place; the last kinds of its list may repeat, as the pairs of COUNTIFS do. */
export function kindAt({ kinds, repeats }: FunctionEntry, place: number): BaseKind | undefined {
  if (place < kinds.length) return kinds[place];
  return repeats === 0 ? undefined : kinds[kinds.length - repeats + ((place - kinds.length) % repeats)];
}
