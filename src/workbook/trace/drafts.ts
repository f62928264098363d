import { columnsOf, type Place, rowsOf, type SheetArea, sizeOf } from "../book/area";
import { formulaPattern } from "../book/formulas";
import type { Slot } from "../formula/grid/slot";
import { type Area, cellKey, type CellValue } from "../model";
import { type Member, type TracedPlace, shownValue, spreadOf } from "./tree";
import type { TracedBook } from "./workbench";

/** A place while it is being put together. */
export type Draft = { -readonly [Key in keyof TracedPlace]: TracedPlace[Key] };

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
  constructor(private readonly bench: TracedBook) {}

  /** A place of one cell. */
  single(cell: Place, kind: TracedPlace["kind"], value: CellValue): Draft {
    const { text, symbol, unit } = this.bench.labels.of(cell.sheet, cell.row, cell.column);
    const stored = this.bench.book.sheets[cell.sheet]?.cells.get(cellKey(cell.row, cell.column));
    const address = this.address(cell);
    const shown = shownValue(value, stored?.format ?? "General", this.bench.book.date1904);
    return { ...bare, kind, address, name: this.bench.nameOf(address), label: text, symbol, unit, value, shown };
  }

  /** A place of several cells, each of them listed. */
  range(area: SheetArea, cells: readonly Place[]): Draft {
    const { text, symbol, unit } = this.bench.labels.ofArea(area);
    const address = this.areaAddress(area);
    const listed = cells.map((cell): Member => {
      const { value, kind } = this.bench.state(cell);
      return { address: this.address(cell), value, kind };
    });
    const size = sizeOf(area);
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
    if (draft.kind !== "formula" || !filled || sizeOf(filled) < 2) return;
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
    if (slots.length === 1 && filled && sizeOf(filled) > 1)
      notes.push(`fills ${this.areaAddress({ sheet: first.sheet, ...filled })}`);
    const circle = this.bench.cycleOf(slots.map((slot) => this.address(slot)));
    if (circle) notes.push(`stands in a circle: ${circle.join(" → ")}`);
    return notes;
  }

  address({ sheet, row, column }: Place): string {
    return this.bench.address({ sheet, row, column });
  }

  areaAddress(area: SheetArea): string {
    return this.bench.addressOfArea(area);
  }
}

/** The cells of an area by what they are. */
interface SortedCells {
  /** All that hold or give something. */
  readonly cells: readonly Place[];
  readonly typed: readonly Place[];
  /** Formulas, those together that are the same one in another row or column, in the order of their first cells. */
  readonly groups: readonly (readonly Slot[])[];
  /** Array formulas with the cells of the area that they fill. */
  readonly owners: ReadonlyMap<Slot, readonly Place[]>;
}

/** Sorts the cells of an area. */
export function sortedCells(bench: TracedBook, area: SheetArea): SortedCells {
  const cells = bench.filledCellsIn(area);
  const typed: Place[] = [];
  const formulas = new Map<string, Slot[]>();
  const owners = new Map<Slot, Place[]>();
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

function push<Key, Value>(map: Map<Key, Value[]>, key: Key, value: Value): void {
  const known = map.get(key);
  if (known) known.push(value);
  else map.set(key, [value]);
}

const firstOf = ([slot]: readonly Slot[]): number => (slot ? cellKey(slot.row, slot.column) : 0);

/** Fills more of the area than its own cell. */
const reachesOn = (filled: Area, area: Area): boolean =>
  Math.min(filled.bottom, area.bottom) > filled.top || Math.min(filled.right, area.right) > filled.left;
