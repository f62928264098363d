import type { Area, Cell } from "../../model";

/** A formula's own cell, and the cells that it fills. */
interface Filled {
  readonly cell: Cell;
  readonly area: Area;
}

/** Two formulas that fill one cell, at least one of them an array formula: no spreadsheet allows it. Undefined where there are none. */
export function overlappingFormulas(cells: ReadonlyMap<number, Cell>): readonly [Cell, Cell] | undefined {
  const arrays: Filled[] = [];
  const singles: Filled[] = [];
  for (const cell of cells.values()) {
    if (!cell.formula) continue;
    const { row, column } = cell;
    const area = cell.formula.array ?? { top: row, left: column, bottom: row, right: column };
    (isOneCell(area) ? singles : arrays).push({ cell, area });
  }
  if (arrays.length === 0) return undefined;

  const byStart = [...arrays, ...singles].sort((one, other) => one.area.top - other.area.top);
  const byEnd = [...arrays].sort((one, other) => one.area.bottom - other.area.bottom);
  // Downwards, the arrays that reach the row at hand from left to right; as they do not overlap, they are fewer than the columns.
  const reaching: Filled[] = [];
  let ended = 0;
  for (const next of byStart) {
    for (let past = byEnd[ended]; past && past.area.bottom < next.area.top; past = byEnd[++ended])
      reaching.splice(placeOf(past, reaching), 1);
    const place = placeOf(next, reaching);
    const [before, after] = [reaching[place - 1], reaching[place]];
    if (before && before.area.right >= next.area.left) return [before.cell, next.cell];
    if (after && after.area.left <= next.area.right) return [after.cell, next.cell];
    if (!isOneCell(next.area)) reaching.splice(place, 0, next);
  }
  return undefined;
}

const isOneCell = ({ top, left, bottom, right }: Area): boolean => top === bottom && left === right;

/** The index of the first area that begins at the given one's left edge or to the right of it. */
function placeOf({ area }: Filled, sorted: readonly Filled[]): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if ((sorted[middle] as Filled).area.left < area.left) from = middle + 1;
    else to = middle;
  }
  return from;
}
