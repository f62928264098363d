import { buildCellKey, placeOfKey, type Area, type Book, type Cell, type CellValue } from "../../model";
import { parseCellFormula } from "../../book/formulas";
import { formatCellAddress, quoteSheetName } from "../../book/address";
import { AreaCache, ColumnRuns, ValueCounts } from "./range-caches";
import { largestArray } from "../values/broadcast";
import { type HandedOn, ReadingNotes, Slot } from "./slot";
import { NotEvaluated, Pending, refuse } from "../values/refusal";
import { SheetGrid } from "./sheet-grid";
import { Matrix, type Scalar } from "../values/value";
import { columnsOf, isInside, lastColumn, lastRow, isOverlapping, type Place, type SheetArea } from "../../book/area";
import { spend, spendArray } from "../work-limits";

/** Values that replace cell contents, for a what-if; keyed by sheet index, then by buildCellKey. */
export type Overrides = ReadonlyMap<number, ReadonlyMap<number, CellValue>>;

/** What was found in an area, and what its cells propagate. */
interface ReadArea {
  readonly matrix: Matrix;
  readonly handedOn: Readonly<HandedOn>;
}
interface CountedArea {
  readonly counts: ValueCounts;
  readonly handedOn: Readonly<HandedOn>;
}

/** Below this many rows caching gains nothing. */
const fewRows = 32;

/** The book's cells by place; reading one not yet evaluated requests it. */
export class Grid {
  readonly sheets: SheetGrid[] = [];
  readonly formulas: Slot[] = [];
  /** Cells requested by the current evaluation that are not ready. */
  readonly wanted: Slot[] = [];
  readonly notes = new ReadingNotes();
  private readonly readAreas = new AreaCache<ReadArea>();
  private readonly counted = new AreaCache<CountedArea>();
  private readonly runs = new ColumnRuns();
  private readonly prefixes: string[] = [];

  constructor(
    readonly book: Book,
    overrides: Overrides,
    /** The known extents of dynamic arrays, by the address of their formula. */
    spills: ReadonlyMap<string, Area>,
    /** What cells that close a circle begin with, by their address. */
    seeds: ReadonlyMap<string, Scalar> = new Map(),
  ) {
    for (const [index, { cells }] of book.sheets.entries()) {
      const changed = overrides.get(index);
      const sheet = new SheetGrid(changed);
      this.sheets.push(sheet);
      const emptied = listReplacedArrays(cells, changed);
      for (const [key, { row, column, value, formula }] of cells) {
        if (changed?.has(key)) continue;
        if (!formula) {
          if (emptied.some((area) => isInside(area, row, column)))
            sheet.addSlot(key, Slot.createEmptied(index, row, column));
          else sheet.addConstant(key, value);
          continue;
        }
        const slot = new Slot(index, row, column, formula, parseCellFormula(formula, { row, column }));
        sheet.addSlot(key, slot);
        this.formulas.push(slot);
      }
    }
    for (const { sheets } of book.externals ?? [])
      for (const { cells } of sheets) this.sheets.push(SheetGrid.createKept(cells));
    for (const slot of this.formulas) {
      const sheet = this.sheets[slot.sheet];
      const seed = seeds.size > 0 ? seeds.get(this.formatAddress(slot)) : undefined;
      if (seed !== undefined) slot.seed = { value: seed, change: book.iteration?.change ?? 0 };
      if (slot.formula?.array) sheet?.claim(slot, slot.formula.array);
      const spill = spills.size > 0 ? spills.get(this.formatAddress(slot)) : undefined;
      if (spill) sheet?.claim(slot, spill);
    }
  }

  /** The formula cell or array cell at a place, if there is one. */
  findSlot(sheet: number, row: number, column: number): Slot | undefined {
    return this.sheets[sheet]?.slots.get(buildCellKey(row, column));
  }

  /** The formula that computes a cell: its own, or that of the array which fills it. */
  findFormula({ sheet, row, column }: Place): Slot | undefined {
    const slot = this.findSlot(sheet, row, column);
    return slot?.owner ?? slot;
  }

  /** A sheet of another workbook, [1] being the first, whose kept values lie behind the book's own sheets. */
  findExternalSheet(number: number, name: string): number | undefined {
    const externals = this.book.externals ?? [];
    const place = externals[number - 1]?.sheets.findIndex((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
    if (place === undefined || place < 0 || !externals[number - 1]?.sheets[place]?.cells) return undefined;
    const before = externals.slice(0, number - 1).reduce((sum, { sheets }) => sum + sheets.length, 0);
    return this.book.sheets.length + before + place;
  }

  /** The value of one cell. */
  readValue(sheet: number, row: number, column: number): Scalar {
    const grid = this.sheets[sheet];
    if (!grid) return null;
    const key = buildCellKey(row, column);
    const slot = grid.slots.get(key);
    if (slot) {
      if (!this.isReady(slot)) throw Pending.signal;
      return this.read(slot);
    }
    if (grid.large.length > 0) this.refuseLarge({ sheet, top: row, bottom: row, left: column, right: column });
    return this.noteValue(grid.constants.get(key) ?? null);
  }

  /** Visits the cells of an area that hold something, row by row; the visitor may return true to stop. */
  visit(area: SheetArea, visitor: (value: Scalar, row: number, column: number) => boolean | void): void {
    const grid = this.sheets[area.sheet];
    if (!grid) return;
    this.refuseLarge(area);
    const keys = grid.listKeys(area);
    spend(5 * keys.length);
    let waiting = false;
    for (const key of keys) {
      const slot = grid.slots.get(key);
      if (slot && !this.isReady(slot)) waiting = true;
    }
    if (waiting) throw Pending.signal;
    for (const key of keys) {
      const slot = grid.slots.get(key);
      const value = slot ? this.read(slot) : this.noteValue(grid.constants.get(key) ?? null);
      if (value === null) continue;
      const { row, column } = placeOfKey(key);
      if (visitor(value, row, column) === true) return;
    }
  }

  /** The values of an area; whole columns only within the used part of the book, the rest described by the matrix. */
  readMatrix(area: SheetArea): Matrix {
    const whole = area.top === 0 && area.bottom === lastRow;
    const bottom = whole ? Math.max(0, ...this.sheets.map((sheet) => sheet.bottom)) : area.bottom;
    const rows = bottom - area.top + 1;
    const columns = columnsOf(area);
    if (area.left === 0 && area.right === lastColumn) refuse("a whole row in an array calculation");
    if (rows * columns > largestArray) refuse("a range of more than two million cells in an array calculation");
    let read = this.readAreas.get(area);
    // The caller reads it completely.
    spend(10 + (read?.matrix.values.length ?? 0));
    if (!read) {
      spendArray(rows * columns);
      const values: Scalar[] = new Array<Scalar>(rows * columns).fill(null);
      const handedOn = this.notes.collectHandedOn(() =>
        this.visit({ ...area, bottom }, (value, row, column) => {
          values[(row - area.top) * columns + (column - area.left)] = value;
        }),
      );
      const beyond = whole ? { rows: lastRow + 1, value: null } : undefined;
      read = { matrix: new Matrix(rows, columns, values, false, beyond, true), handedOn };
      this.readAreas.keep(area, read, values.length);
    }
    this.notes.takeOver(read.handedOn);
    return read.matrix;
  }

  /** The sum of a column's numbers if it extends an earlier sum; undefined if all cells must be visited. */
  sumDown(area: SheetArea): number | undefined {
    if (area.left !== area.right || area.bottom - area.top < fewRows) return undefined;
    spend(10);
    const run = this.runs.sum(area, (rest, visitor) => this.notes.collectHandedOn(() => this.visit(rest, visitor)));
    if (run) this.notes.takeOver(run.handedOn);
    return run?.total;
  }

  /** How often each value occurs in an area, counted once. */
  countValues(area: SheetArea, asNumber: (text: string) => number | undefined): ValueCounts | undefined {
    if (area.bottom - area.top < fewRows) return undefined;
    let known = this.counted.get(area);
    if (!known) {
      const counts = new ValueCounts(asNumber);
      const handedOn = this.notes.collectHandedOn(() => this.visit(area, (value) => counts.add(value)));
      this.counted.keep(area, (known = { counts, handedOn }), counts.size);
    }
    spend(10);
    this.notes.takeOver(known.handedOn);
    return known.counts;
  }

  private isReady(slot: Slot): boolean {
    const source = slot.owner ?? slot;
    if (source.progress === "done" || source.seed) return true;
    this.wanted.push(source);
    return false;
  }

  private read(slot: Slot): Scalar {
    const source = slot.owner ?? slot;
    this.notes.takeFrom(source);
    if (source.failure && !source.seed) throw this.deriveFailure(source, source.failure);
    return this.noteValue(slot.shown, slot);
  }

  private noteValue(value: Scalar, slot?: Slot): Scalar {
    this.notes.noteValue(value, slot);
    return value;
  }

  private deriveFailure(source: Slot, failure: NotEvaluated): NotEvaluated {
    // Made once for all cells that read it, since an array may fill very many.
    if (!failure.origin)
      source.failureForOthers ??= new NotEvaluated(failure.reason, this.formatAddress(source), failure.cause);
    return source.failureForOthers ?? failure;
  }

  /** Cells of arrays too large to be kept individually are unknown. */
  refuseLarge(area: SheetArea): void {
    const large = this.sheets[area.sheet]?.large ?? [];
    spend(large.length);
    for (const one of large)
      if (isOverlapping(area, one.area)) throw new NotEvaluated(one.reason, this.formatAddress(one.owner));
  }

  /** True if a cell holds something that blocks another formula's spill. */
  blocks(sheet: number, row: number, column: number, owner: Slot): boolean {
    const grid = this.sheets[sheet];
    const key = buildCellKey(row, column);
    const slot = grid?.slots.get(key);
    if (slot) return slot !== owner && slot.owner !== owner && !slot.isEmptied;
    return grid?.constants.has(key) === true;
  }

  /** The full address of a cell: Results!B4. */
  formatAddress(slot: { readonly sheet: number; readonly row: number; readonly column: number }): string {
    const prefix = (this.prefixes[slot.sheet] ??= `${quoteSheetName(this.book.sheets[slot.sheet]?.name ?? "")}!`);
    return prefix + formatCellAddress(slot.row, slot.column);
  }
}

/** The ranges of dynamic arrays whose formula was replaced: their filled cells go too. */
function listReplacedArrays(
  cells: ReadonlyMap<number, Cell>,
  changed: ReadonlyMap<number, CellValue> | undefined,
): readonly Area[] {
  return [...(changed?.keys() ?? [])].flatMap((key) => {
    const formula = cells.get(key)?.formula;
    return formula?.dynamic && formula.array ? [formula.array] : [];
  });
}
