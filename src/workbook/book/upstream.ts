import { isSingleCell, type Place, placeKey, type SheetArea } from "./area";
import type { Inspector } from "./inspector";

/** What was found for each book under review: several checks ask about the same result. */
const known = new WeakMap<Inspector, Map<string, ReadonlyMap<number, Place>>>();

/** Every cell that the given areas depend on, at any remove, themselves included. */
export function findUpstream(view: Inspector, areas: readonly SheetArea[]): ReadonlyMap<number, Place> {
  let ofBook = known.get(view);
  if (!ofBook) known.set(view, (ofBook = new Map<string, ReadonlyMap<number, Place>>()));
  const key = areas.map(nameArea).join();
  let found = ofBook.get(key);
  if (!found) ofBook.set(key, (found = collectUpstream(view, areas)));
  return found;
}

const nameArea = ({ sheet, top, left, bottom, right }: SheetArea): string =>
  `${sheet} ${top} ${left} ${bottom} ${right}`;

function collectUpstream(view: Inspector, areas: readonly SheetArea[]): ReadonlyMap<number, Place> {
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
        if (isSingleCell(area)) {
          const cell = { sheet: area.sheet, row: area.top, column: area.left };
          if (view.findCell(cell)) waiting.push(cell);
          continue;
        }
        const name = nameArea(area);
        if (entered.has(name)) continue;
        entered.add(name);
        for (const cell of view.listCells(area)) waiting.push(cell);
      }
    }
  }
  return found;
}
