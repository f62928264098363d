import { ErrorValue, type CellValue } from "../model";
import { outlineOf } from "./outline";
import type { Trace } from "./tree";

/** A trace as JSON: every place once, in the order and with the numbers of the other forms; branches name places by number. */
export function traceAsJson(trace: Trace): string {
  const ids = new Map(trace.places.map((place, id) => [place, id]));
  const numbers = new Map<number, number>();
  for (const { place, number } of outlineOf(trace, Infinity)) {
    numbers.set(ids.get(place) ?? 0, number);
  }
  const places = [...numbers]
    .sort(([, a], [, b]) => a - b)
    .map(([id, number]) => {
      const { value, members, branches, ...rest } = trace.places[id] as Trace["places"][number];
      return {
        number,
        ...rest,
        value: plain(value),
        ...(members && { members: members.map((member) => ({ ...member, value: plain(member.value) })) }),
        branches: branches.map(({ role, node }) => ({ role, place: numbers.get(node) })),
      };
    });
  return JSON.stringify({ cell: trace.places[0]?.address, inputs: trace.inputs, places }, null, 2);
}

const plain = (value: CellValue): unknown => (value instanceof ErrorValue ? { error: value.code } : value);
