import { cellKey, type Area } from "../model";
import { relativeKey } from "../formula/parse/relative-key";
import type { Slot } from "../formula/grid/slot";
import type { SheetArea } from "../formula/values/value";
import type { Cell } from "./drafts";
import type { Workbench } from "./workbench";

/** The cells of an area by what they are. */
export interface SortedCells {
  /** All that hold or give something. */
  readonly cells: readonly Cell[];
  readonly typed: readonly Cell[];
  /** Formulas, those together that are the same one in another row or column, in the order of their first cells. */
  readonly groups: readonly (readonly Slot[])[];
  /** Array formulas with the cells of the area that they fill. */
  readonly owners: ReadonlyMap<Slot, readonly Cell[]>;
}

/** Sorts the cells of an area. */
export function sortedCells(bench: Workbench, area: SheetArea): SortedCells {
  const cells = bench.cellsIn(area);
  const typed: Cell[] = [];
  const formulas = new Map<string, Slot[]>();
  const owners = new Map<Slot, Cell[]>();
  for (const cell of cells) {
    const state = bench.state(cell);
    if (state.kind === "input") typed.push(cell);
    if (state.kind === "filled" && state.owner) push(owners, state.owner, cell);
    if (state.kind !== "formula") continue;
    const slot = bench.slot(cell);
    if (slot.filled && reachesOn(slot.filled, area)) push(owners, slot, cell);
    else push(formulas, relativeKey(slot.formula?.text ?? "", slot.row, slot.column), slot);
  }
  const groups = [...formulas.values()].sort((a, b) => firstOf(a) - firstOf(b));
  return { cells, typed, groups, owners };
}

/** The smallest area that holds all of some cells of one sheet. */
export function areaAround(slots: readonly Cell[]): SheetArea {
  const rows = slots.map(({ row }) => row);
  const columns = slots.map(({ column }) => column);
  const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity);
  const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity);
  return {
    sheet: slots[0]?.sheet ?? 0,
    top: least(rows),
    bottom: most(rows),
    left: least(columns),
    right: most(columns),
  };
}

function push<Key, Value>(map: Map<Key, Value[]>, key: Key, value: Value): void {
  const known = map.get(key);
  if (known) known.push(value);
  else map.set(key, [value]);
}

const firstOf = ([slot]: readonly Slot[]): number => (slot ? cellKey(slot.row, slot.column) : 0);
/** Fills more of the area than its own cell. */
const reachesOn = (filled: Area, area: Area): boolean =>
  Math.min(filled.bottom, area.bottom) > filled.top || Math.min(filled.right, area.right) > filled.left;
