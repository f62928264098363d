import { cellKey, type Area, type CellValue } from "../model";
import { fullAddress } from "../formula/address";
import { asTyped } from "../formula/as-typed";
import { relativeKey } from "../formula/relative-key";
import type { Slot } from "../formula/slot";
import { columnsOf, rowsOf, type SheetArea } from "../formula/value";
import { addressOf, mergedReads, overlap, rectanglesOf } from "./areas";
import { explain, type Explanation } from "./explain";
import { rowNote } from "./row-note";
import { inputsOf, shownValue, spreadOf } from "./summary";
import type { Branch, Member, Place, Trace } from "./tree";
import type { Read } from "./walk";
import type { Workbench } from "./workbench";

/** A place that still waits for what it rests on. */
interface Waiting {
  readonly id: number;
  readonly reads: readonly Read[];
  readonly depth: number;
  /** Branches that are known before its turn comes. */
  readonly ready: readonly Branch[];
}

type Draft = { -readonly [Key in keyof Place]: Place[Key] };
interface Cell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** Larger ranges are not listed blank by blank. */
const mostListed = 4_000;

/** Follows a cell back, the nearest places first, until only typed cells are left; no cell is followed twice. */
export class Builder {
  private readonly places: Draft[] = [];
  private readonly ids = new Map<string, number>();
  private readonly queue: Waiting[] = [];
  private readonly inputs = new Map<string, Cell>();

  constructor(
    private readonly bench: Workbench,
    private readonly deepest: number,
  ) {}

  build({ sheet, row, column }: Cell): Trace {
    this.cell({ sheet, row, column }, 0);
    // A queue, not a recursion: a chain of formulas may be as long as the sheet.
    for (let next = 0; next < this.queue.length; next += 1) this.expand(this.queue[next] as Waiting);
    return { places: this.places, inputs: inputsOf([...this.inputs.values()], (cell) => this.address(cell)) };
  }

  private expand({ id, reads, ready, depth }: Waiting): void {
    const place = this.places[id] as Draft;
    if (depth >= this.deepest) {
      place.cut = reads.length + ready.length > 0;
      return;
    }
    const branches = [...ready];
    for (const { area, role } of reads) {
      const node = this.area(area, depth + 1);
      if (node === id) place.notes = [...new Set([...place.notes, "reads its own cell"])];
      else if (!branches.some((other) => other.node === node && other.role === role)) branches.push({ role, node });
    }
    place.branches = branches;
  }

  private area(area: SheetArea, depth: number): number {
    if (area.top === area.bottom && area.left === area.right)
      return this.cell({ sheet: area.sheet, row: area.top, column: area.left }, depth);
    const address = this.areaAddress(area);
    const known = this.ids.get(address);
    if (known !== undefined) return known;
    const cells = this.bench.cellsIn(area);
    const formulas = new Map<string, Slot[]>();
    const owners = new Map<Slot, Cell[]>();
    for (const cell of cells) {
      const state = this.bench.state(cell);
      if (state.kind === "input") this.inputs.set(this.address(cell), cell);
      if (state.kind === "filled" && state.owner) push(owners, state.owner, cell);
      if (state.kind !== "formula") continue;
      const slot = this.bench.slot(cell);
      if (slot.filled && reachesOn(slot.filled, area)) push(owners, slot, cell);
      else push(formulas, relativeKey(slot.formula?.text ?? "", slot.row, slot.column), slot);
    }
    const groups = [...formulas.values()].sort((a, b) => firstOf(a) - firstOf(b));
    if (groups.length === 1 && groups[0]?.length === cells.length) {
      const id = this.group(groups[0], depth);
      this.ids.set(address, id);
      return id;
    }
    const draft = this.rangeDraft(area, cells);
    const [spilled] = owners.values();
    if (spilled?.length === cells.length) draft.kind = "spilled";
    const id = this.add(address, draft);
    const reads = [...owners.keys()].map((slot): Read => ({ area: areaOfSlot(slot), role: "filled by" }));
    const ready = groups.map((slots): Branch => ({ role: "", node: this.group(slots, depth + 1) }));
    this.queue.push({ id, reads, ready, depth });
    return id;
  }

  private cell(cell: Cell, depth: number): number {
    const address = this.address(cell);
    const known = this.ids.get(address);
    if (known !== undefined) return known;
    const state = this.bench.state(cell);
    if (state.kind === "formula") return this.group([this.bench.slot(cell)], depth);
    const draft = this.singleDraft(cell, state.kind === "filled" ? "spilled" : state.kind, state.value);
    if (state.notEvaluated !== undefined) draft.notEvaluated = state.notEvaluated;
    if (state.kind === "input") this.inputs.set(address, cell);
    const { owner } = state;
    if (owner) Object.assign(draft, rowNote(this.bench, owner, cell, draft));
    const id = this.add(address, draft);
    if (owner) this.queue.push({ id, reads: [{ area: areaOfSlot(owner), role: "filled by" }], ready: [], depth });
    return id;
  }

  /** One formula, or several that are the same one row by row. */
  private group(slots: readonly Slot[], depth: number): number {
    const [first] = slots as [Slot, ...Slot[]];
    const known = this.ids.get(this.address(first));
    if (known !== undefined && slots.every((slot) => this.ids.get(this.address(slot)) === known)) return known;
    const explained = slots.map((slot) =>
      this.bench.explanation(slot, () => explain(slot, this.bench.tools, this.bench.now)),
    );
    const best = explained.reduce((a, b, place) => (b.reads.length > (explained[a]?.reads.length ?? 0) ? place : a), 0);
    const shown = slots[best] as Slot;
    const { words, reasons, calls } = explained[best] as Explanation;
    const area = areaAround(slots);
    const isSingle = slots.length === 1;
    const draft = isSingle
      ? this.singleDraft(first, "formula", this.bench.state(first).value)
      : this.rangeDraft(area, slots);
    draft.kind = isSingle ? "formula" : "formulas";
    draft.formula = asTyped(shown.formula?.text ?? "");
    draft.words = words;
    draft.reasons = reasons;
    if (!isSingle) draft.example = this.address(shown);
    draft.functions = calls.flatMap((id) => this.bench.tools.functions.get(id) ?? []);
    this.nameTable(slots, calls, draft);
    draft.notes = [...this.notesOn(slots), ...new Set(explained.flatMap(({ notes }) => notes))];
    const reason = slots.map((slot) => this.bench.state(slot).notEvaluated).find((text) => text !== undefined);
    if (reason !== undefined) draft.notEvaluated = reason;
    const reads = isSingle
      ? (explained[0]?.reads ?? [])
      : mergedReads(
          explained.flatMap((one) => one.reads),
          area,
        );
    const outside = isSingle ? reads : this.outside(area, slots, reads);
    if (outside.length < reads.length || outside.some((read, place) => read.area !== reads[place]?.area))
      draft.notes = [...draft.notes, "each builds on another of them"];
    const id = this.add(isSingle ? this.address(first) : `${this.areaAddress(area)} ${draft.formula}`, draft);
    for (const slot of slots) if (!this.ids.has(this.address(slot))) this.ids.set(this.address(slot), id);
    this.queue.push({ id, reads: outside, ready: [], depth });
    return id;
  }

  /** The first cell of a table that a function fills says little about the table. */
  private nameTable([first]: readonly Slot[], calls: readonly string[], draft: Draft): void {
    const { filled } = first as Slot;
    if (draft.kind !== "formula" || !filled || rowsOf(filled) * columnsOf(filled) < 2) return;
    if (calls.length === 1) draft.label = `table by ${calls.join()}`;
    draft.symbol = "";
    draft.unit = "";
    draft.shown = `${String(rowsOf(filled))} × ${String(columnsOf(filled))} cells`;
  }

  /** What formulas copied over an area read outside it: they need not lead on to themselves. */
  private outside(area: SheetArea, slots: readonly Slot[], reads: readonly Read[]): Read[] {
    const own = new Set(slots.map((slot) => this.address(slot)));
    return reads.flatMap((read) => {
      if (!overlap(read.area, area)) return [read];
      const cells = this.bench.cellsIn(read.area);
      const others = cells.filter((cell) => !own.has(this.address(cell)));
      return others.length === cells.length ? [read] : rectanglesOf(others).map((rest) => ({ ...read, area: rest }));
    });
  }

  private notesOn(slots: readonly Slot[]): string[] {
    const notes: string[] = [];
    const [first] = slots as [Slot, ...Slot[]];
    const { filled } = first;
    if (slots.length === 1 && filled && rowsOf(filled) * columnsOf(filled) > 1)
      notes.push(`fills ${this.areaAddress({ sheet: first.sheet, ...filled })}`);
    const circle = this.bench.cycleOf(slots.map((slot) => this.address(slot)));
    if (circle) notes.push(`stands in a circle: ${circle.join(" → ")}`);
    return notes;
  }

  private singleDraft(cell: Cell, kind: Place["kind"], value: CellValue): Draft {
    const { text, symbol, unit } = this.bench.labels.of(cell.sheet, cell.row, cell.column);
    const stored = this.bench.book.sheets[cell.sheet]?.cells.get(cellKey(cell.row, cell.column));
    const address = this.address(cell);
    const shown = shownValue(value, stored?.format ?? "General", this.bench.book.date1904);
    return { ...bare, kind, address, name: this.bench.nameOf(address), label: text, symbol, unit, value, shown };
  }

  private rangeDraft(area: SheetArea, cells: readonly Cell[]): Draft {
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

  private add(key: string, draft: Draft): number {
    const id = this.places.push(draft) - 1;
    this.ids.set(key, id);
    return id;
  }

  private address({ sheet, row, column }: Cell): string {
    return fullAddress(this.bench.book.sheets[sheet]?.name ?? "", row, column);
  }

  private areaAddress(area: SheetArea): string {
    return addressOf(area, this.bench.book.sheets[area.sheet]?.name ?? "");
  }
}

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

function push<Key, Value>(map: Map<Key, Value[]>, key: Key, value: Value): void {
  const known = map.get(key);
  if (known) known.push(value);
  else map.set(key, [value]);
}

const firstOf = ([slot]: readonly Slot[]): number => (slot ? cellKey(slot.row, slot.column) : 0);
/** Fills more of the area than its own cell. */
const reachesOn = (filled: Area, area: Area): boolean =>
  Math.min(filled.bottom, area.bottom) > filled.top || Math.min(filled.right, area.right) > filled.left;
const areaOfSlot = ({ sheet, row, column }: Cell): SheetArea => ({
  sheet,
  top: row,
  bottom: row,
  left: column,
  right: column,
});

function areaAround(slots: readonly Slot[]): SheetArea {
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
