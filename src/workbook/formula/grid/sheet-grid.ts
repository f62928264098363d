import { buildCellKey, placeOfKey, type Area, type CellValue } from "../../model";
import { Slot } from "./slot";
import { columnsOf, rowsOf } from "../../book/area";
import { spend, readCurrentWork } from "../work-limits";

/** The most cells one array formula may fill here. */
export const largestFill = 200_000;
export const largestFillReason = "an array formula over more cells than are kept here";

/** One sheet's cells: what is constant, and what formulas compute. */
export class SheetGrid {
  readonly constants = new Map<number, CellValue>();
  readonly slots = new Map<number, Slot>();
  /** Array formulas over more cells than are kept individually. */
  readonly large: { readonly owner: Slot; readonly area: Area; readonly reason: string }[] = [];
  bottom = -1;
  right = -1;
  private sortedKeys: number[] | undefined;

  constructor(private readonly changed: ReadonlyMap<number, CellValue> | undefined) {
    for (const [key, value] of changed ?? []) this.addConstant(key, value);
  }

  /** The values that are kept of a sheet of another workbook. */
  static createKept(cells: ReadonlyMap<number, CellValue> | undefined): SheetGrid {
    return new SheetGrid(cells);
  }

  addConstant(key: number, value: CellValue): void {
    if (value !== null) this.constants.set(key, value);
    this.grow(key);
  }

  addSlot(key: number, slot: Slot): void {
    this.slots.set(key, slot);
    this.grow(key);
  }

  private grow(key: number): void {
    const { row, column } = placeOfKey(key);
    if (row > this.bottom) this.bottom = row;
    if (column > this.right) this.right = column;
  }

  /** Assigns the cells of an array formula's range to it; their stored contents are its old result, not input. */
  claim(owner: Slot, area: Area): void {
    const count = rowsOf(area) * columnsOf(area);
    const reason = count > largestFill ? largestFillReason : readCurrentWork().keepCells(count);
    if (reason !== undefined) {
      this.large.push({ owner, area, reason });
      return;
    }
    owner.claimed += count;
    const stored = owner.formula?.array;
    for (let row = area.top; row <= area.bottom; row += 1) {
      for (let column = area.left; column <= area.right; column += 1) {
        const key = buildCellKey(row, column);
        if (this.slots.get(key)?.isEmptied === false || this.changed?.has(key)) continue;
        const wasResult = stored !== undefined && row <= stored.bottom && column <= stored.right;
        if (this.constants.has(key) && !wasResult) continue;
        const slot = new Slot(owner.sheet, row, column, undefined, undefined);
        slot.owner = owner;
        this.constants.delete(key);
        this.addSlot(key, slot);
      }
    }
  }

  /** The keys of an area's cells as far as the sheet is used, row by row; in a sparse area only those that hold something. */
  listKeys(area: Area): number[] {
    const bottom = Math.min(area.bottom, this.bottom);
    const right = Math.min(area.right, this.right);
    const size = Math.max(0, bottom - area.top + 1) * Math.max(0, right - area.left + 1);
    const keys: number[] = [];
    if (size <= 2 * (this.constants.size + this.slots.size) + 16) {
      for (let row = area.top; row <= bottom; row += 1) {
        for (let column = area.left; column <= right; column += 1) keys.push(buildCellKey(row, column));
      }
      return keys;
    }
    // A sparse area is searched among all cells, each visited once.
    spend(this.constants.size + this.slots.size);
    this.sortedKeys ??= [...this.constants.keys(), ...this.slots.keys()].sort((a, b) => a - b);
    for (const key of this.sortedKeys) {
      const { row, column } = placeOfKey(key);
      if (row >= area.top && row <= bottom && column >= area.left && column <= right) keys.push(key);
    }
    return keys;
  }
}
