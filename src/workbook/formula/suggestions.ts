import type { Grid } from "./grid/grid";
import { resolveArea } from "./references/references";
import { type SheetNames } from "../book/names";
import type { Slot } from "./grid/slot";
import type { TableNode } from "./parse/syntax";
import { resolveTable } from "./references/table-reference";
import { Reference } from "./values/value";

/** Larger areas are skipped: a formula that reads one requests all its cells at once. */
const mostCells = 64;

/** Formula cells directly referenced by a formula, worth evaluating first. */
export class Suggestions {
  constructor(
    private readonly grid: Grid,
    private readonly sheetNames: SheetNames,
  ) {}

  /** Calls back with each of them. */
  suggestFor(slot: Slot, suggest: (other: Slot) => void): void {
    for (const node of slot.parsed?.precedents ?? []) {
      if (node.type === "area") this.suggestCells(resolveArea(node, slot, this.sheetNames), suggest);
      else if (node.type === "table") this.suggestCells(this.resolveKnownTable(node, slot), suggest);
    }
  }

  /** A table reference that cannot be resolved is refused when the formula is evaluated, not here. */
  private resolveKnownTable(node: TableNode, slot: Slot): unknown {
    try {
      return resolveTable(node, slot, this.grid.book);
    } catch {
      return undefined;
    }
  }

  private suggestCells(reference: unknown, suggest: (other: Slot) => void): void {
    if (!(reference instanceof Reference)) return;
    for (const { sheet, top, left, bottom, right } of reference.areas) {
      if ((bottom - top + 1) * (right - left + 1) > mostCells) continue;
      for (let row = top; row <= bottom; row += 1) {
        for (let column = left; column <= right; column += 1) {
          const slot = this.grid.findSlot(sheet, row, column);
          if (slot) suggest(slot.owner ?? slot);
        }
      }
    }
  }
}
