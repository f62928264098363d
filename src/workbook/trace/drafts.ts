import { formulaPattern } from "../book/formulas";
import type { Slot } from "../formula/grid/slot";
import { fullAddress } from "../formula/parse/address";
import { columnsOf, rowsOf, type SheetArea } from "../formula/values/value";
import { type Area, cellKey, type CellValue } from "../model";
import { addressOf } from "./areas";
import { type Member, type Place, shownValue, spreadOf } from "./tree";
import type { Workbench } from "./workbench";

/** A place while it is being put together. */
export type Draft = { -readonly [Key in keyof Place]: Place[Key] };

export interface Cell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** Larger ranges are not listed blank by blank. */
const mostListed = 4_000;

const bare = {
  label: "",
  symbol: "",
  unit: "",
  value: null,
  shown: "",
  functions: [],
  reasons: [],
  notes: [],
  branches: [],
  cut: false,
};

/** What stands at a place, before it is known what it rests on. */
export class Drafts {
  constructor(private readonly bench: Workbench) {}

  /** A place of one cell. */
  single(cell: Cell, kind: Place["kind"], value: CellValue): Draft {
    const { text, symbol, unit } = this.bench.labels.of(cell.sheet, cell.row, cell.column);
    const stored = this.bench.book.sheets[cell.sheet]?.cells.get(cellKey(cell.row, cell.column));
    const address = this.address(cell);
    const shown = shownValue(value, stored?.format ?? "General", this.bench.book.date1904);
    return { ...bare, kind, address, name: this.bench.nameOf(address), label: text, symbol, unit, value, shown };
  }

  /** A place of several cells, each of them listed. */
  range(area: SheetArea, cells: readonly Cell[]): Draft {
    const { text, symbol, unit } = this.bench.labels.ofArea(area);
    const address = this.areaAddress(area);
    const listed = cells.map((cell): Member => {
      const { value, kind } = this.bench.state(cell);
      return { address: this.address(cell), value, kind };
    });
    const size = rowsOf(area) * columnsOf(area);
    const members = size <= mostListed ? this.withBlanks(area, listed) : listed;
    const spread = spreadOf(members, size);
    return {
      ...bare,
      kind: "range",
      address,
      name: this.bench.nameOf(address),
      label: text,
      symbol,
      unit,
      spread,
      members,
    };
  }

  private withBlanks(area: SheetArea, listed: readonly Member[]): Member[] {
    const byAddress = new Map(listed.map((member) => [member.address, member]));
    const all: Member[] = [];
    for (let row = area.top; row <= area.bottom; row += 1)
      for (let column = area.left; column <= area.right; column += 1) {
        const address = this.address({ sheet: area.sheet, row, column });
        all.push(byAddress.get(address) ?? { address, value: null, kind: "blank" });
      }
    return all;
  }

  /** The first cell of a table that a function fills says little about the table. */
  nameTable([first]: readonly Slot[], calls: readonly string[], draft: Draft): void {
    const { filled } = first as Slot;
    if (draft.kind !== "formula" || !filled || rowsOf(filled) * columnsOf(filled) < 2) return;
    if (calls.length === 1) draft.label = `table by ${calls.join()}`;
    draft.symbol = "";
    draft.unit = "";
    draft.shown = `${String(rowsOf(filled))} × ${String(columnsOf(filled))} cells`;
  }

  /** What is to be said of formulas beyond what they read. */
  notesOn(slots: readonly Slot[]): string[] {
    const notes: string[] = [];
    const [first] = slots as [Slot, ...Slot[]];
    const { filled } = first;
    if (slots.length === 1 && filled && rowsOf(filled) * columnsOf(filled) > 1)
      notes.push(`fills ${this.areaAddress({ sheet: first.sheet, ...filled })}`);
    const circle = this.bench.cycleOf(slots.map((slot) => this.address(slot)));
    if (circle) notes.push(`stands in a circle: ${circle.join(" → ")}`);
    return notes;
  }

  address({ sheet, row, column }: Cell): string {
    return fullAddress(this.bench.book.sheets[sheet]?.name ?? "", row, column);
  }

  areaAddress(area: SheetArea): string {
    return addressOf(area, this.bench.book.sheets[area.sheet]?.name ?? "");
  }
}

/** The cells of an area by what they are. */
interface SortedCells {
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
    else push(formulas, slot.formula ? formulaPattern(slot.formula, slot) : "", slot);
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
