import type { SheetLooks } from "../file/looks/sheet-looks";
import { fullAddress } from "../formula/parse/address";
import type { EvaluatedCell, Evaluation } from "../formula/evaluation";
import { cellKey, ErrorValue, type Book, type CellValue, type Sheet } from "../model";
import type { RulesAt } from "./conditions";
import { extentOf, type Extent } from "./sheet-extent";

/** What a page knows of one cell. */
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

/** One sheet with its values, looks and limits, ready to be written. */
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

export interface Viewed {
  readonly book: Book;
  readonly looks: readonly SheetLooks[];
  readonly evaluation: Evaluation;
  /** Values that were put into cells before the evaluation, by the sheet's index and cellKey. */
  readonly set: ReadonlyMap<string, CellValue>;
}

const addInCall = /_xldudf_|\bSTILLAIR\./i;

/** The views of all sheets; conditions come later, because they need the extents. */
export function sheetViews({ book, looks, evaluation, set }: Viewed, rulesAt: () => RulesAt): SheetView[] {
  const computed = book.sheets.map((): Map<number, EvaluatedCell> => new Map());
  const addInSources = new Set<string>();
  for (const cell of evaluation.cells) computed[cell.sheet]?.set(cellKey(cell.row, cell.column), cell);
  book.sheets.forEach(({ name, cells }) => {
    for (const { row, column, formula } of cells.values())
      if (formula && addInCall.test(formula.text)) addInSources.add(fullAddress(name, row, column));
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
        extent: extentOf(sheet, own, [...results.values()]),
        headerRows: headerCells(book, index),
        rulesAt: (row, column) => rulesAt()(index, row, column),
        cell: (row, column) => {
          const key = cellKey(row, column);
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

/** Cells that head a column of a table, by "row column". */
function headerCells(book: Book, sheet: number): Set<string> {
  const found = new Set<string>();
  for (const { sheet: own, area, headerRows } of book.tables) {
    if (own !== sheet) continue;
    for (let row = area.top; row < area.top + headerRows; row++)
      for (let column = area.left; column <= area.right; column++) found.add(`${row} ${column}`);
  }
  return found;
}

export function reasonOf(value: CellValue): string {
  return value instanceof ErrorValue ? value.reason : "";
}
