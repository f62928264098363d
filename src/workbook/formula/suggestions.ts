import type { Grid } from "./grid";
import { resolveArea, type SheetNames } from "./references";
import type { Slot } from "./slot";
import { resolveTable } from "./table-reference";
import { Reference, type SheetArea } from "./value";

/** Larger areas are left alone: a formula that reads one asks for all its cells in one go. */
const mostCells = 64;

/** Formula cells that a formula names in plain sight, worth evaluating first. */
export class Suggestions {
  constructor(
    private readonly grid: Grid,
    private readonly sheetNames: SheetNames,
  ) {}

  *of(slot: Slot): Iterable<Slot> {
    for (const node of slot.parsed?.precedents ?? []) {
      if (node.type === "area") yield* this.slotsOf(resolveArea(node, slot, this.sheetNames));
      else if (node.type === "table") yield* this.slotsOf(this.table(() => resolveTable(node, slot, this.grid.book)));
    }
  }

  /** A table reference that cannot be resolved is refused when the formula is evaluated, not here. */
  private table(resolve: () => unknown): unknown {
    try {
      return resolve();
    } catch {
      return undefined;
    }
  }

  private *slotsOf(reference: unknown): Iterable<Slot> {
    if (reference instanceof Reference) for (const area of reference.areas) yield* this.slotsIn(area);
  }

  private *slotsIn(area: SheetArea): Iterable<Slot> {
    if ((area.bottom - area.top + 1) * (area.right - area.left + 1) > mostCells) return;
    for (let row = area.top; row <= area.bottom; row += 1) {
      for (let column = area.left; column <= area.right; column += 1) {
        const slot = this.grid.slotAt(area.sheet, row, column);
        if (slot) yield slot.owner ?? slot;
      }
    }
  }
}
