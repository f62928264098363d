import type { SheetLooks } from "../file/appearance/sheet-appearance";
import type { EvaluatedCell, Evaluation } from "../formula/evaluation";
import { formatFullAddress } from "../book/address";
import { type Area, type Book, buildCellKey, type CellValue, ErrorValue, placeOfKey, type Sheet } from "../model";
import type { RulesAt } from "./conditions";

/** What a page knows about one cell. */
export interface CellView {
  readonly value: CellValue;
  readonly format: string;
  /** As stored, without "=". */
  readonly formula: string | undefined;
  /** Typed by a person: unlocked on a protected sheet. */
  readonly isInput: boolean;
  /** Computed by an add-in function, or filled by one. */
  readonly isAddIn: boolean;
  /** Why there is no computed value; the stored one is shown. */
  readonly notEvaluated: string | undefined;
}

/** One sheet with its values, styles and extent, ready to be written. */
export interface SheetView {
  readonly index: number;
  readonly sheet: Sheet;
  readonly looks: SheetLooks;
  readonly extent: Extent;
  readonly date1904: boolean;
  readonly headerRows: ReadonlySet<string>;
  cell(row: number, column: number): CellView | undefined;
  rulesAt(row: number, column: number): ReturnType<RulesAt>;
}

interface Viewed {
  readonly book: Book;
  readonly looks: readonly SheetLooks[];
  readonly evaluation: Evaluation;
  /** Values set before the evaluation, by sheet index and buildCellKey. */
  readonly set: ReadonlyMap<string, CellValue>;
}

const addInCall = /_xldudf_|\bSTILLAIR\./i;

/** The views of all sheets; conditions come later, because they need the extents. */
export function createSheetViews({ book, looks, evaluation, set }: Viewed, rulesAt: () => RulesAt): SheetView[] {
  const computed = book.sheets.map((): Map<number, EvaluatedCell> => new Map());
  const addInSources = new Set<string>();
  for (const cell of evaluation.cells) computed[cell.sheet]?.set(buildCellKey(cell.row, cell.column), cell);
  book.sheets.forEach(({ name, cells }) => {
    for (const { row, column, formula } of cells.values())
      if (formula && addInCall.test(formula.text)) addInSources.add(formatFullAddress(name, row, column));
  });
  return book.sheets.flatMap((sheet, index): SheetView[] => {
    const own = looks[index];
    if (!own) return [];
    const results = computed[index] ?? new Map<number, EvaluatedCell>();
    return [
      {
        index,
        sheet,
        looks: own,
        date1904: book.date1904,
        extent: measureExtent(sheet, own, [...results.values()]),
        headerRows: listHeaderCells(book, index),
        rulesAt: (row, column) => rulesAt()(index, row, column),
        cell: (row, column) => {
          const key = buildCellKey(row, column);
          const stored = sheet.cells.get(key);
          const result = results.get(key);
          const given = set.get(`${index} ${key}`);
          const isInput = own.isProtected && !own.styleOf(row, column).locked;
          if (!stored && !result && given === undefined && !isInput) return undefined;
          const outcome = result?.outcome;
          const value = given !== undefined ? given : outcome?.evaluated ? outcome.value : (stored?.value ?? null);
          return {
            value,
            format: stored?.format ?? "General",
            formula: stored?.formula?.text,
            isInput,
            isAddIn: result !== undefined && addInSources.has(result.source),
            notEvaluated: outcome?.evaluated === false ? outcome.reason : undefined,
          };
        },
      },
    ];
  });
}

/** Header cells of tables, by "row column". */
function listHeaderCells(book: Book, sheet: number): Set<string> {
  const found = new Set<string>();
  for (const { sheet: own, area, headerRows } of book.tables) {
    if (own !== sheet) continue;
    for (let row = area.top; row < area.top + headerRows; row++)
      for (let column = area.left; column <= area.right; column++) found.add(`${row} ${column}`);
  }
  return found;
}

export function readReason(value: CellValue): string {
  return value instanceof ErrorValue ? value.reason : "";
}

/** The part of a sheet shown on a page: visible rows and columns up to the last used one. */
interface Extent {
  readonly rows: readonly number[];
  readonly columns: readonly number[];
  readonly hiddenRows: readonly number[];
  readonly hiddenColumns: readonly number[];
  /** Rows and columns of the sheet beyond the part shown. */
  readonly isCut: boolean;
}

/** A page with more is slow to open; the rest is in the workbook. */
const most = { rows: 2000, columns: 120 };

export function measureExtent(
  sheet: Sheet,
  looks: SheetLooks,
  computed: readonly { row: number; column: number }[],
): Extent {
  let [lastRow, lastColumn] = [looks.lastStyledRow, looks.lastStyledColumn];
  const include = ({ row, column }: { row: number; column: number }): void => {
    lastRow = Math.max(lastRow, row);
    lastColumn = Math.max(lastColumn, column);
  };
  // Fills and borders may extend to the sheet's end; content does not.
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
  const listUpTo = (last: number, limit: number) =>
    Array.from({ length: Math.min(last + 1, limit) }, (_, index) => index);
  const rows = listUpTo(lastRow, most.rows);
  const columns = listUpTo(lastColumn, most.columns);
  return {
    rows: rows.filter((row) => !sheet.hiddenRows.has(row)),
    columns: columns.filter((column) => !sheet.hiddenColumns.has(column)),
    hiddenRows: rows.filter((row) => sheet.hiddenRows.has(row)),
    hiddenColumns: columns.filter((column) => sheet.hiddenColumns.has(column)),
    isCut,
  };
}

/** Merged cells by place: the first visible one with its spans, the others as covered. */
export interface Merges {
  spanAt(
    row: number,
    column: number,
  ): { rows: number; columns: number; from: { row: number; column: number } } | undefined;
  isCovered(row: number, column: number): boolean;
}

export function collectMerges(areas: readonly Area[], { rows, columns }: Extent): Merges {
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
