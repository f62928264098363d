import { formatCellAddress } from "../book/address";

/** The id of a cell on the page, so that lists can point at it. */
export function buildCellId(sheet: number, row: number, column: number): string {
  return buildCellIdStart(sheet) + formatCellAddress(row, column);
}

/** What the ids of all cells of a sheet begin with. */
export function buildCellIdStart(sheet: number): string {
  return `s${sheet + 1}-`;
}
