import type { SheetLooks } from "../file/looks/sheet-looks";
import { placeOfKey, type Area, type Sheet } from "../model";

/** The part of a sheet that a page shows: visible rows and columns up to the last one that holds something. */
export interface Extent {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
  readonly hiddenRows: readonly number[];
  readonly hiddenColumns: readonly number[];
  /** Rows and columns of the sheet that are beyond what a page shows. */
  readonly isCut: boolean;
}

/** A page with more is slow to open; the workbook itself is at hand for the rest. */
const most = { rows: 2000, columns: 120 };

export function extentOf(
  sheet: Sheet,
  looks: SheetLooks,
  computed: readonly { row: number; column: number }[],
): Extent {
  let [lastRow, lastColumn] = [looks.lastStyledRow, looks.lastStyledColumn];
  const include = ({ row, column }: { row: number; column: number }): void => {
    lastRow = Math.max(lastRow, row);
    lastColumn = Math.max(lastColumn, column);
  };
  // Ground and borders may run to the sheet's end; what is written or computed does not.
  let [lastWrittenRow, lastWrittenColumn] = [0, 0];
  let [lastComputedRow, lastComputedColumn] = [0, 0];
  for (const key of sheet.cells.keys()) {
    const place = placeOfKey(key);
    include(place);
    lastWrittenRow = Math.max(lastWrittenRow, place.row);
    lastWrittenColumn = Math.max(lastWrittenColumn, place.column);
  }
  for (const place of computed) {
    include(place);
    lastComputedRow = Math.max(lastComputedRow, place.row);
    lastComputedColumn = Math.max(lastComputedColumn, place.column);
  }
  for (const { area } of looks.drawings) if (area) include({ row: area.bottom, column: area.right });
  if (sheet.cells.size === 0 && computed.length === 0) [lastRow, lastColumn] = [-1, -1];
  if (lastRow > lastWrittenRow + 200) lastRow = Math.max(lastWrittenRow, lastComputedRow);
  if (lastColumn > lastWrittenColumn + 30) lastColumn = Math.max(lastWrittenColumn, lastComputedColumn);
  const isCut = lastRow >= most.rows || lastColumn >= most.columns;
  const all = (last: number, limit: number) => Array.from({ length: Math.min(last + 1, limit) }, (_, index) => index);
  const rows = all(lastRow, most.rows);
  const columns = all(lastColumn, most.columns);
  return {
    rows: rows.filter((row) => !sheet.hiddenRows.has(row)),
    columns: columns.filter((column) => !sheet.hiddenColumns.has(column)),
    hiddenRows: rows.filter((row) => sheet.hiddenRows.has(row)),
    hiddenColumns: columns.filter((column) => sheet.hiddenColumns.has(column)),
    isCut,
  };
}

/** Merged cells by place: the first visible one with its spans, the others covered. */
export interface Merges {
  spanAt(
    row: number,
    column: number,
  ): { rows: number; columns: number; from: { row: number; column: number } } | undefined;
  isCovered(row: number, column: number): boolean;
}

export function mergesOf(areas: readonly Area[], { rows, columns }: Extent): Merges {
  const spans = new Map<string, { rows: number; columns: number; from: { row: number; column: number } }>();
  const covered = new Set<string>();
  for (const { top, left, bottom, right } of areas) {
    const [inside, across] = [
      rows.filter((row) => row >= top && row <= bottom),
      columns.filter((column) => column >= left && column <= right),
    ];
    const [row, column] = [inside[0], across[0]];
    if (row === undefined || column === undefined) continue;
    for (const one of inside) for (const other of across) covered.add(`${one} ${other}`);
    covered.delete(`${row} ${column}`);
    spans.set(`${row} ${column}`, { rows: inside.length, columns: across.length, from: { row: top, column: left } });
  }
  return {
    spanAt: (row, column) => spans.get(`${row} ${column}`),
    isCovered: (row, column) => covered.has(`${row} ${column}`),
  };
}
