import type { Place, Trace } from "./tree";

/** One line of a trace as it is printed. */
export interface Line {
  readonly place: Place;
  /** Counted in the order of the lines; a place keeps its number wherever it is met again. */
  readonly number: number;
  readonly depth: number;
  readonly role: string;
  /** In full here; told already further up; or told further down, since the nesting had become too deep. */
  readonly form: "full" | "again" | "later";
}

/**
 * The places in the order in which they are read: each below what rests on it, in full where it is met first. What lies deeper than
 * `deepest` is told at the end, at the margin, so that no page has to nest without end.
 */
export function outlineOf({ places }: Trace, deepest = 40): Line[] {
  const lines: Line[] = [];
  const numbers = new Map<number, number>();
  const told = new Set<number>();
  const later: number[] = [0];
  const numberOf = (id: number): number => {
    let number = numbers.get(id);
    if (number === undefined) numbers.set(id, (number = numbers.size + 1));
    return number;
  };
  for (const start of later) {
    if (told.has(start)) continue;
    const stack = [{ id: start, depth: 0, role: "" }];
    for (let next = stack.pop(); next; next = stack.pop()) {
      const { id, depth, role } = next;
      const place = places[id] as Place;
      const number = numberOf(id);
      if (told.has(id)) {
        lines.push({ place, number, depth, role, form: "again" });
        continue;
      }
      if (depth > deepest) {
        lines.push({ place, number, depth, role, form: "later" });
        later.push(id);
        continue;
      }
      told.add(id);
      lines.push({ place, number, depth, role, form: "full" });
      for (const { node, role: purpose } of [...place.branches].reverse())
        stack.push({ id: node, depth: depth + 1, role: purpose });
    }
  }
  return lines;
}
