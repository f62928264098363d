import { cellKey, placeOfKey, type Area, type Book, type CellValue } from "../model";
import { cellAddress, quotedSheetName } from "./address";
import { largestArray } from "./broadcast";
import type { Parser } from "./parse";
import { NotEvaluated, Pending, refuse } from "./refusal";
import { Slot } from "./slot";
import type { Reference } from "./value";
import { columnsOf, lastColumn, lastRow, Matrix, rowsOf, type Scalar, type SheetArea } from "./value";

/** Values that replace what cells hold, for a what-if; keyed by sheet index, then by cellKey. */
export type Overrides = ReadonlyMap<number, ReadonlyMap<number, CellValue>>;

interface SheetGrid {
  readonly constants: Map<number, CellValue>;
  readonly slots: Map<number, Slot>;
  readonly used: { bottom: number; right: number };
  sortedKeys: number[] | undefined;
}

/** The book's cells by place: constants, formula cells and what arrays fill; reading one that is not ready asks for it. */
export class Grid {
  readonly sheets: SheetGrid[] = [];
  readonly formulas: Slot[] = [];
  /** Cells that the evaluation under way has asked for and that are not ready. */
  readonly wanted: Slot[] = [];
  private readonly prefixes: string[] = [];
  /** The cell being evaluated. */
  current: Slot | undefined;

  constructor(
    readonly book: Book,
    parser: Parser,
    overrides: Overrides,
    spills: ReadonlyMap<string, Area>,
  ) {
    for (const [sheet, { cells }] of book.sheets.entries()) {
      const grid: SheetGrid = {
        constants: new Map(),
        slots: new Map(),
        used: { bottom: -1, right: -1 },
        sortedKeys: undefined,
      };
      this.sheets.push(grid);
      const changed = overrides.get(sheet);
      for (const [key, cell] of cells) {
        if (changed?.has(key)) continue;
        const { row, column, formula } = cell;
        if (formula) this.addFormula(new Slot(sheet, row, column, formula, parser.parse(formula.text, row, column)));
        else if (cell.value !== null) grid.constants.set(key, cell.value);
        this.grow(sheet, row, column);
      }
      for (const [key, value] of changed ?? []) {
        const { row, column } = placeOfKey(key);
        if (value !== null) grid.constants.set(key, value);
        this.grow(sheet, row, column);
      }
    }
    for (const slot of this.formulas) {
      if (slot.formula?.array) this.claim(slot, slot.formula.array, overrides);
      const spill = spills.size > 0 ? spills.get(this.address(slot)) : undefined;
      if (spill) this.claim(slot, spill, overrides);
    }
  }

  private addFormula(slot: Slot): void {
    this.sheets[slot.sheet]?.slots.set(cellKey(slot.row, slot.column), slot);
    this.formulas.push(slot);
  }

  private grow(sheet: number, row: number, column: number): void {
    const used = this.sheets[sheet]?.used;
    if (!used) return;
    used.bottom = Math.max(used.bottom, row);
    used.right = Math.max(used.right, column);
  }

  /** Gives the cells of an array formula's range to it; what the file stores there is its old result, not input. */
  private claim(owner: Slot, area: Area, overrides: Overrides): void {
    const grid = this.sheets[owner.sheet];
    if (!grid) return;
    const stored = owner.formula?.array;
    // A range too large to be computed is refused later; only cells that the file holds must not be taken for input.
    const small = rowsOf(area) * columnsOf(area) <= largestArray;
    for (let row = area.top; row <= (small ? area.bottom : Math.min(area.bottom, grid.used.bottom)); row += 1) {
      for (
        let column = area.left;
        column <= (small ? area.right : Math.min(area.right, grid.used.right));
        column += 1
      ) {
        const key = cellKey(row, column);
        if (grid.slots.has(key) || overrides.get(owner.sheet)?.has(key)) continue;
        const wasResult = stored !== undefined && row <= stored.bottom && column <= stored.right;
        if (grid.constants.has(key) && !wasResult) continue;
        const slot = new Slot(owner.sheet, row, column, undefined, undefined);
        slot.owner = owner;
        grid.constants.delete(key);
        grid.slots.set(key, slot);
        this.grow(owner.sheet, row, column);
      }
    }
  }

  /** The formula cell or array cell at a place, if there is one. */
  slotAt(sheet: number, row: number, column: number): Slot | undefined {
    return this.sheets[sheet]?.slots.get(cellKey(row, column));
  }

  /** The value of one cell. */
  value(sheet: number, row: number, column: number): Scalar {
    const grid = this.sheets[sheet];
    if (!grid) return null;
    const key = cellKey(row, column);
    const slot = grid.slots.get(key);
    if (!slot) return grid.constants.get(key) ?? null;
    if (!this.isReady(slot)) throw Pending.signal;
    return this.valueOf(slot);
  }

  /** Visits the cells of an area that hold something, row by row; the visitor may return true to stop. */
  visit(area: SheetArea, visitor: (value: Scalar, row: number, column: number) => boolean | void): void {
    const grid = this.sheets[area.sheet];
    if (!grid) return;
    const keys = this.keysIn(grid, area);
    let waiting = false;
    for (const key of keys) {
      const slot = grid.slots.get(key);
      if (slot && !this.isReady(slot)) waiting = true;
    }
    if (waiting) throw Pending.signal;
    for (const key of keys) {
      const slot = grid.slots.get(key);
      const value = slot ? this.valueOf(slot) : (grid.constants.get(key) ?? null);
      if (value === null) continue;
      const { row, column } = placeOfKey(key);
      if (visitor(value, row, column) === true) return;
    }
  }

  /** The values of an area; whole columns and rows only as far as the book is used, the rest said by the matrix. */
  matrix(area: SheetArea): Matrix {
    const wholeColumns = area.top === 0 && area.bottom === lastRow;
    const wholeRows = area.left === 0 && area.right === lastColumn;
    const bottom = wholeColumns ? Math.max(0, ...this.sheets.map(({ used }) => used.bottom)) : area.bottom;
    const right = wholeRows ? Math.max(0, ...this.sheets.map(({ used }) => used.right)) : area.right;
    const rows = bottom - area.top + 1;
    const columns = right - area.left + 1;
    if (rows * columns > largestArray) refuse("a range of more than two million cells in an array calculation");
    if (wholeRows) refuse("a whole row in an array calculation");
    const values: Scalar[] = new Array<Scalar>(rows * columns).fill(null);
    this.visit({ ...area, bottom, right }, (value, row, column) => {
      values[(row - area.top) * columns + (column - area.left)] = value;
    });
    return new Matrix(
      rows,
      columns,
      values,
      false,
      wholeColumns ? { rows: lastRow + 1, value: null } : undefined,
      true,
    );
  }

  /** The values of a reference with one area; #VALUE! for a union is the caller's business. */
  matrixOf(reference: Reference): Matrix | undefined {
    return reference.area ? this.matrix(reference.area) : undefined;
  }

  private keysIn(grid: SheetGrid, area: SheetArea): number[] {
    const bottom = Math.min(area.bottom, grid.used.bottom);
    const right = Math.min(area.right, grid.used.right);
    const size = Math.max(0, bottom - area.top + 1) * Math.max(0, right - area.left + 1);
    const stored = grid.constants.size + grid.slots.size;
    const keys: number[] = [];
    if (size <= 2 * stored + 16) {
      for (let row = area.top; row <= bottom; row += 1) {
        for (let column = area.left; column <= right; column += 1) keys.push(cellKey(row, column));
      }
      return keys;
    }
    grid.sortedKeys ??= [...grid.constants.keys(), ...grid.slots.keys()].sort((a, b) => a - b);
    for (const key of grid.sortedKeys) {
      const { row, column } = placeOfKey(key);
      if (row >= area.top && row <= bottom && column >= area.left && column <= right) keys.push(key);
    }
    return keys;
  }

  private isReady(slot: Slot): boolean {
    const source = slot.owner ?? slot;
    if (source.progress === "done") return true;
    this.wanted.push(source);
    return false;
  }

  private valueOf(slot: Slot): Scalar {
    const source = slot.owner ?? slot;
    if (this.current) {
      this.current.depth = Math.max(this.current.depth, source.depth);
      this.current.onClock ||= source.onClock;
    }
    if (source.failure) throw this.dependent(source);
    if (!slot.owner) return slot.value;
    const { filled, results } = source;
    if (!filled || !results || slot.row > filled.bottom || slot.column > filled.right) return null;
    return results.at(slot.row - filled.top, slot.column - filled.left);
  }

  private dependent(source: Slot): NotEvaluated {
    const failure = source.failure as NotEvaluated;
    const origin = failure.origin ?? this.address(source);
    return failure.origin ? failure : new NotEvaluated(failure.reason, origin);
  }

  /** The value that a cell shows in the end, or undefined where it was not evaluated. */
  finalValue(sheet: number, row: number, column: number): { value: Scalar } | { failure: NotEvaluated } {
    try {
      return { value: this.value(sheet, row, column) };
    } catch (problem) {
      if (problem instanceof NotEvaluated) return { failure: problem };
      throw problem;
    }
  }

  address(slot: { readonly sheet: number; readonly row: number; readonly column: number }): string {
    const prefix = (this.prefixes[slot.sheet] ??= `${quotedSheetName(this.book.sheets[slot.sheet]?.name ?? "")}!`);
    return prefix + cellAddress(slot.row, slot.column);
  }

  /** True where a cell holds something that blocks another formula's spill. */
  blocks(sheet: number, row: number, column: number, owner: Slot): boolean {
    const grid = this.sheets[sheet];
    const key = cellKey(row, column);
    const slot = grid?.slots.get(key);
    if (slot) return slot !== owner && slot.owner !== owner;
    return grid?.constants.has(key) === true;
  }
}
