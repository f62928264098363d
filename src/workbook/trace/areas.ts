import { mergedAreas, type SheetArea } from "../book/area";
import type { Read } from "./walk";

/** What formulas copied over `copies` read, put together along them, in the order in which the roles were first met. */
export function mergedReads(reads: readonly Read[], copies: SheetArea): Read[] {
  const way = copies.left === copies.right ? "down" : copies.top === copies.bottom ? "across" : "both";
  const byRole = new Map<string, SheetArea[]>();
  for (const { role, area } of reads) {
    const known = byRole.get(role);
    if (known) known.push(area);
    else byRole.set(role, [area]);
  }
  return [...byRole].flatMap(([role, areas]) => mergedAreas(areas, way).map((area) => ({ role, area })));
}
