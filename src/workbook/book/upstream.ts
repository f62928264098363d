import { type Place, placeKey, type SheetArea } from "./area";
import type { Inspector } from "./inspector";

/** Every cell that the given areas depend on, at any remove, themselves included. */
export function findUpstream(view: Inspector, areas: readonly SheetArea[]): Map<number, Place> {
  const found = new Map<number, Place>();
  const waiting: Place[] = areas.flatMap((area) => view.listCells(area));
  const entered = new Set<string>();
  for (let place = waiting.pop(); place; place = waiting.pop()) {
    const key = placeKey(place);
    if (found.has(key)) continue;
    found.set(key, place);
    const owner = view.findOwner(place);
    if (owner) waiting.push(owner);
    else {
      for (const area of view.listPrecedents(place)) {
        const name = `${area.sheet} ${area.top} ${area.left} ${area.bottom} ${area.right}`;
        if (entered.has(name)) continue;
        entered.add(name);
        for (const cell of view.listCells(area)) waiting.push(cell);
      }
    }
  }
  return found;
}
