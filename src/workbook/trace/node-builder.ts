import { formatRoute } from "../formatting";
import {
  findAreaAround,
  areaOf,
  columnsOf,
  isSingleCell,
  mergeAreas,
  type Place,
  joinIntoRectangles,
  rowsOf,
  shareCells,
  type SheetArea,
  sizeOf,
} from "../book/area";
import { buildFormulaPattern } from "../book/formulas";
import type { Slot } from "../formula/grid/slot";
import { toTypedForm } from "../formula/parse/formula-text";
import { type Area, buildCellKey, type CellValue } from "../model";
import { explain, type Explanation } from "./explain";
import type { Read } from "./explanation";
import type { TracedBook } from "./traced-book";
import { formatDateValue } from "../page/cell-text";
import { type Branch, listInputs, type Member, spreadOf, type Trace, type TracedPlace } from "./tree";

/** A place whose precedents are still to be traced. */
interface Waiting {
  readonly id: number;
  readonly reads: readonly Read[];
  readonly depth: number;
  /** Branches known before its turn comes. */
  readonly ready: readonly Branch[];
}

/** Traces a cell back, nearest places first, until only typed cells remain; no cell is traced twice. */
export class Builder {
  private readonly places: Draft[] = [];
  private readonly ids = new Map<string, number>();
  private readonly queue: Waiting[] = [];
  private readonly inputs = new Map<string, Place>();

  private readonly drafts: DraftFactory;

  constructor(
    private readonly bench: TracedBook,
    private readonly deepest: number,
  ) {
    this.drafts = new DraftFactory(bench);
  }

  build({ sheet, row, column }: Place): Trace {
    this.addCell({ sheet, row, column }, 0);
    // A queue, not recursion: a chain of formulas can be as long as the sheet.
    for (let next = 0; next < this.queue.length; next += 1) this.expand(this.queue[next] as Waiting);
    return {
      places: this.places,
      inputs: listInputs([...this.inputs.values()], (cell) => this.drafts.formatAddress(cell)),
    };
  }

  private expand({ id, reads, ready, depth }: Waiting): void {
    const place = this.places[id] as Draft;
    if (depth >= this.deepest) {
      place.cut = reads.length + ready.length > 0;
      return;
    }
    const branches = [...ready];
    for (const { area, role } of reads) {
      const node = this.addArea(area, depth + 1);
      if (node === id) place.notes = [...new Set([...place.notes, "reads its own cell"])];
      else if (!branches.some((other) => other.node === node && other.role === role)) branches.push({ role, node });
    }
    place.branches = branches;
  }

  private addArea(area: SheetArea, depth: number): number {
    if (isSingleCell(area)) return this.addCell({ sheet: area.sheet, row: area.top, column: area.left }, depth);
    const address = this.drafts.formatAreaAddress(area);
    const known = this.ids.get(address);
    if (known !== undefined) return known;
    const { cells, typed, groups, owners } = sortCells(this.bench, area);
    for (const cell of typed) this.inputs.set(this.drafts.formatAddress(cell), cell);
    if (groups.length === 1 && groups[0]?.length === cells.length) {
      const id = this.group(groups[0], depth);
      this.ids.set(address, id);
      return id;
    }
    const draft = this.drafts.draftRange(area, cells);
    const [spilled] = owners.values();
    if (spilled?.length === cells.length) draft.kind = "spilled";
    const id = this.add(address, draft);
    const reads = [...owners.keys()].map((slot): Read => ({ area: areaOf(slot), role: "filled by" }));
    const ready = groups.map((slots): Branch => ({ role: "", node: this.group(slots, depth + 1) }));
    this.queue.push({ id, reads, ready, depth });
    return id;
  }

  private addCell(cell: Place, depth: number): number {
    const address = this.drafts.formatAddress(cell);
    const known = this.ids.get(address);
    if (known !== undefined) return known;
    const state = this.bench.state(cell);
    if (state.kind === "formula") return this.group([this.bench.createSlot(cell)], depth);
    const draft = this.drafts.draftCell(cell, state.kind === "filled" ? "spilled" : state.kind, state.value);
    if (state.notEvaluated !== undefined) draft.notEvaluated = state.notEvaluated;
    if (state.kind === "input") this.inputs.set(address, cell);
    const { owner } = state;
    if (owner) Object.assign(draft, readRowNote(this.bench, owner, cell, draft));
    const id = this.add(address, draft);
    if (owner) this.queue.push({ id, reads: [{ area: areaOf(owner), role: "filled by" }], ready: [], depth });
    return id;
  }

  /** One formula, or several that repeat it row by row. */
  private group(slots: readonly Slot[], depth: number): number {
    const [first] = slots as [Slot, ...Slot[]];
    const known = this.ids.get(this.drafts.formatAddress(first));
    if (known !== undefined && slots.every((slot) => this.ids.get(this.drafts.formatAddress(slot)) === known))
      return known;
    const area = findAreaAround(slots);
    const isSingle = slots.length === 1;
    // Some of the cells may already have been described in another group; this group is still described once.
    const isDense = slots.length === sizeOf(area);
    const cells = isDense ? "" : slots.map((slot) => this.drafts.formatAddress(slot)).join(" ");
    const group = `${this.drafts.formatAreaAddress(area)} as one ${cells}`;
    const told = this.ids.get(group);
    if (!isSingle && told !== undefined) return told;
    const explained = slots.map((slot) =>
      this.bench.rememberExplanation(slot, () => explain(slot, this.bench.tools, this.bench.now)),
    );
    const best = explained.reduce((a, b, place) => (b.reads.length > (explained[a]?.reads.length ?? 0) ? place : a), 0);
    const shown = slots[best] as Slot;
    const { words, reasons, calls } = explained[best] as Explanation;
    const draft = isSingle
      ? this.drafts.draftCell(first, "formula", this.bench.state(first).value)
      : this.drafts.draftRange(area, slots);
    draft.kind = isSingle ? "formula" : "formulas";
    draft.formula = toTypedForm(shown.formula?.text ?? "");
    draft.words = words;
    draft.reasons = reasons;
    if (!isSingle) draft.example = this.drafts.formatAddress(shown);
    draft.functions = calls.flatMap((id) => this.bench.tools.functions.get(id) ?? []);
    this.drafts.nameTable(slots, calls, draft);
    draft.notes = [...this.drafts.collectNotes(slots), ...new Set(explained.flatMap(({ notes }) => notes))];
    const reason = slots.map((slot) => this.bench.state(slot).notEvaluated).find((text) => text !== undefined);
    if (reason !== undefined) draft.notEvaluated = reason;
    const reads = isSingle
      ? (explained[0]?.reads ?? [])
      : mergeReads(
          explained.flatMap((one) => one.reads),
          area,
        );
    const outside = isSingle ? reads : this.listReadsOutside(area, slots, reads);
    if (outside.length < reads.length || outside.some((read, place) => read.area !== reads[place]?.area))
      draft.notes = [...draft.notes, "each builds on another one"];
    const id = this.add(isSingle ? this.drafts.formatAddress(first) : group, draft);
    for (const slot of slots)
      if (!this.ids.has(this.drafts.formatAddress(slot))) this.ids.set(this.drafts.formatAddress(slot), id);
    this.queue.push({ id, reads: outside, ready: [], depth });
    return id;
  }

  /** What formulas copied over an area read outside it; they need not refer to themselves. */
  private listReadsOutside(area: SheetArea, slots: readonly Slot[], reads: readonly Read[]): Read[] {
    const own = new Set(slots.map((slot) => this.drafts.formatAddress(slot)));
    return reads.flatMap((read) => {
      if (!shareCells(read.area, area)) return [read];
      const cells = this.bench.listFilledCells(read.area);
      const others = cells.filter((cell) => !own.has(this.drafts.formatAddress(cell)));
      return others.length === cells.length
        ? [read]
        : joinIntoRectangles(others).map((rest) => ({ ...read, area: rest }));
    });
  }

  private add(key: string, draft: Draft): number {
    const id = this.places.push(draft) - 1;
    this.ids.set(key, id);
    return id;
  }
}

/** What an add-in table's row says about one of its cells: words, symbol, unit and source, by the columns listed in its comment. */
function readRowNote(
  bench: TracedBook,
  owner: Slot,
  { sheet, row, column }: Place,
  { label, symbol, unit, value }: Pick<TracedPlace, "label" | "symbol" | "unit" | "value">,
): Partial<TracedPlace> {
  const { filled } = owner;
  if (!filled) return {};
  const { calls } = bench.rememberExplanation(owner, () => explain(owner, bench.tools, bench.now));
  const note = calls.map((id) => bench.tools.functions.get(id)).find((one) => one && one.columns.length > 0);
  if (note?.columns.length !== columnsOf(filled)) return {};
  const readEntry = (...names: readonly string[]): string => {
    const place = note.columns.findIndex((name) => names.includes(name));
    if (place < 0 || filled.left + place === column) return "";
    const found = bench.state({ sheet, row, column: filled.left + place }).value;
    return typeof found === "string" ? found : "";
  };
  const source = readEntry("source", "clause");
  const heading = note.columns[column - filled.left] ?? "";
  const what = readEntry("what it is", "check", "source of uncertainty");
  return {
    label: what === "" ? label : heading === "value" || heading === "measured" ? what : `${what}, ${heading}`,
    symbol: readEntry("symbol") || symbol,
    unit: typeof value === "number" ? readEntry("unit") || unit : "",
    ...(source === "" ? {} : { source }),
  };
}

/** A place under construction. */
type Draft = { -readonly [Key in keyof TracedPlace]: TracedPlace[Key] };

/** The blanks of larger ranges are not listed. */
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

/** The contents of a place, before its precedents are known. */
class DraftFactory {
  constructor(private readonly bench: TracedBook) {}

  /** A place of one cell. */
  draftCell(cell: Place, kind: TracedPlace["kind"], value: CellValue): Draft {
    const { text, symbol, unit } = this.bench.labels.describeAt(cell.sheet, cell.row, cell.column);
    const stored = this.bench.book.sheets[cell.sheet]?.cells.get(buildCellKey(cell.row, cell.column));
    const address = this.formatAddress(cell);
    const shown = formatDateValue(value, stored?.format ?? "General", this.bench.book.date1904);
    return { ...bare, kind, address, name: this.bench.nameOf(address), label: text, symbol, unit, value, shown };
  }

  /** A place of several cells, each listed. */
  draftRange(area: SheetArea, cells: readonly Place[]): Draft {
    const { text, symbol, unit } = this.bench.labels.describeArea(area);
    const address = this.formatAreaAddress(area);
    const listed = cells.map((cell): Member => {
      const { value, kind } = this.bench.state(cell);
      return { address: this.formatAddress(cell), value, kind };
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
        const address = this.formatAddress({ sheet: area.sheet, row, column });
        all.push(byAddress.get(address) ?? { address, value: null, kind: "blank" });
      }
    return all;
  }

  /** The first cell of a table filled by a function says little about the table. */
  nameTable([first]: readonly Slot[], calls: readonly string[], draft: Draft): void {
    const { filled } = first as Slot;
    if (draft.kind !== "formula" || !filled || sizeOf(filled) < 2) return;
    if (calls.length === 1) draft.label = `table by ${calls.join()}`;
    draft.symbol = "";
    draft.unit = "";
    draft.shown = `${String(rowsOf(filled))} × ${String(columnsOf(filled))} cells`;
  }

  /** What to say about formulas beyond what they read. */
  collectNotes(slots: readonly Slot[]): string[] {
    const notes: string[] = [];
    const [first] = slots as [Slot, ...Slot[]];
    const { filled } = first;
    if (slots.length === 1 && filled && sizeOf(filled) > 1)
      notes.push(`fills ${this.formatAreaAddress({ sheet: first.sheet, ...filled })}`);
    const circle = this.bench.findCycle(slots.map((slot) => this.formatAddress(slot)));
    if (circle) notes.push(`is part of a circular reference: ${formatRoute(circle)}`);
    return notes;
  }

  formatAddress({ sheet, row, column }: Place): string {
    return this.bench.formatAddress({ sheet, row, column });
  }

  formatAreaAddress(area: SheetArea): string {
    return this.bench.formatArea(area);
  }
}

/** The cells of an area by kind. */
interface SortedCells {
  /** All that hold or produce something. */
  readonly cells: readonly Place[];
  readonly typed: readonly Place[];
  /** Formulas, grouped with their copies in other rows or columns, in the order of their first cells. */
  readonly groups: readonly (readonly Slot[])[];
  /** Array formulas with the cells of the area they fill. */
  readonly owners: ReadonlyMap<Slot, readonly Place[]>;
}

/** Sorts the cells of an area. */
function sortCells(bench: TracedBook, area: SheetArea): SortedCells {
  const cells = bench.listFilledCells(area);
  const typed: Place[] = [];
  const formulas = new Map<string, Slot[]>();
  const owners = new Map<Slot, Place[]>();
  for (const cell of cells) {
    const state = bench.state(cell);
    if (state.kind === "input") typed.push(cell);
    if (state.kind === "filled" && state.owner) pushInto(owners, state.owner, cell);
    if (state.kind !== "formula") continue;
    const slot = bench.createSlot(cell);
    if (slot.filled && reachesOn(slot.filled, area)) pushInto(owners, slot, cell);
    else pushInto(formulas, slot.formula ? buildFormulaPattern(slot.formula, slot) : "", slot);
  }
  const groups = [...formulas.values()].sort((a, b) => readFirstKey(a) - readFirstKey(b));
  return { cells, typed, groups, owners };
}

function pushInto<Key, Value>(map: Map<Key, Value[]>, key: Key, value: Value): void {
  const known = map.get(key);
  if (known) known.push(value);
  else map.set(key, [value]);
}

const readFirstKey = ([slot]: readonly Slot[]): number => (slot ? buildCellKey(slot.row, slot.column) : 0);

/** Fills more of the area than its own cell. */
const reachesOn = (filled: Area, area: Area): boolean =>
  Math.min(filled.bottom, area.bottom) > filled.top || Math.min(filled.right, area.right) > filled.left;

/** What formulas copied over `copies` read, merged along them, in the order in which the roles first occurred. */
function mergeReads(reads: readonly Read[], copies: SheetArea): Read[] {
  const way = copies.left === copies.right ? "down" : copies.top === copies.bottom ? "across" : "both";
  const byRole = new Map<string, SheetArea[]>();
  for (const { role, area } of reads) {
    const known = byRole.get(role);
    if (known) known.push(area);
    else byRole.set(role, [area]);
  }
  return [...byRole].flatMap(([role, areas]) => mergeAreas(areas, way).map((area) => ({ role, area })));
}
