import { formatAreaAddress } from "../workbook/book/address";
import type { AreaLook, SelectedArea } from "./port/port";

export type Entry = string | number | null;

/** A part of the block with its cells, for whoever must agree to it first. */
export interface BlockPart {
  readonly name: string;
  readonly area: string;
  readonly filledBy: "you" | "Stillair";
}

/** The cells of the block, and their addresses in the sheet. */
export class Grid {
  readonly parts: BlockPart[] = [];
  readonly looks: AreaLook[] = [];
  private readonly rows: Entry[][];

  constructor(
    private readonly place: Pick<SelectedArea, "row" | "column">,
    reach: { readonly rows: number; readonly columns: number },
  ) {
    this.rows = Array.from({ length: reach.rows }, () => Array.from({ length: reach.columns }, () => null));
  }

  put(row: number, column: number, ...entries: readonly Entry[]): void {
    this.rows[row]!.splice(column, entries.length, ...entries);
  }

  /** Puts an entry in and gives it a look. */
  write(look: AreaLook["look"], row: number, column: number, entry: Entry, columns = 1): void {
    this.put(row, column, entry);
    this.dress(look, row, column, 1, columns);
  }

  dress(
    look: AreaLook["look"],
    row: number,
    column: number,
    rows = 1,
    columns = 1,
    format?: string | readonly string[],
  ): void {
    this.looks.push({ look, row, column, rows, columns, ...(format !== undefined && { format }) });
  }

  name(row: number, column: number, rows = 1, columns = 1): string {
    const { row: top, column: left } = { row: this.place.row + row, column: this.place.column + column };
    return formatAreaAddress({ top, left, bottom: top + rows - 1, right: left + columns - 1 });
  }

  addPart(name: string, area: string, filledBy: BlockPart["filledBy"]): void {
    this.parts.push({ name, area, filledBy });
  }

  /** Without the rows and columns at the end that hold nothing: they are reserved, not written. */
  listCells(): Entry[][] {
    const columns = Math.max(...this.rows.map((row) => row.findLastIndex((entry) => entry !== null))) + 1;
    const rows = this.rows.findLastIndex((row) => row.some((entry) => entry !== null)) + 1;
    return this.rows.slice(0, rows).map((row) => row.slice(0, columns));
  }
}
