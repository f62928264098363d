import {
  buildCellKey,
  ErrorValue,
  type Area,
  type Book,
  type Cell,
  type CellValue,
  type DefinedName,
  type Formula,
  type Sheet,
  type Table,
} from "../../../src/workbook/model";
import { parseColumn } from "../../../src/workbook/book/address";
import { evaluateBook, type EvaluateOptions } from "../../../src/workbook/formula/evaluate";
import type { Evaluation } from "../../../src/workbook/formula/evaluation";

/** What a test writes into a cell: a value, or a formula with what the file would hold for it. */
export type Content = CellValue | FormulaContent;

interface FormulaContent {
  readonly formula: string;
  readonly stored?: CellValue;
  readonly array?: string;
  readonly dynamic?: boolean;
}

/** A plain formula. */
export const f = (formula: string, stored: CellValue = null): FormulaContent => ({ formula, stored });
/** A legacy array formula over a range. */
export const legacy = (range: string, formula: string): FormulaContent => ({ formula, array: range });
/** A dynamic array formula with the range that the file says it filled. */
export const dynamic = (range: string, formula: string, stored: CellValue = null): FormulaContent => ({
  formula,
  array: range,
  dynamic: true,
  stored,
});

function place(address: string): { row: number; column: number } {
  const match = /^([A-Z]+)(\d+)$/.exec(address);
  if (!match) throw new Error(`not an address: ${address}`);
  return { row: Number(match[2]) - 1, column: parseColumn(match[1] ?? "") };
}

export function area(range: string): Area {
  const [first = "", last = first] = range.split(":");
  const a = place(first);
  const b = place(last);
  return { top: a.row, left: a.column, bottom: b.row, right: b.column };
}

function cellOf(address: string, content: Content): Cell {
  const at = place(address);
  if (typeof content !== "object" || content === null || content instanceof ErrorValue) {
    return { ...at, value: content, format: "General" };
  }
  const formula: Formula = {
    text: content.formula,
    ...(content.array === undefined ? {} : { array: area(content.array) }),
    ...(content.dynamic === undefined ? {} : { dynamic: content.dynamic }),
  };
  return { ...at, value: content.stored ?? null, formula, format: "General" };
}

export function sheet(name: string, contents: Readonly<Record<string, Content>>, more: Partial<Sheet> = {}): Sheet {
  const cells = new Map<number, Cell>();
  for (const [address, content] of Object.entries(contents)) {
    const cell = cellOf(address, content);
    cells.set(buildCellKey(cell.row, cell.column), cell);
  }
  return {
    name,
    visibility: "visible",
    cells,
    hiddenRows: new Set(),
    hiddenColumns: new Set(),
    filteredRows: new Set(),
    mergedAreas: [],
    ...more,
  };
}

interface Extras {
  readonly names?: readonly DefinedName[];
  readonly tables?: readonly Table[];
  readonly date1904?: boolean;
}

export const bookOf = (sheets: readonly Sheet[], extras: Extras = {}): Book => ({
  sheets,
  names: extras.names ?? [],
  tables: extras.tables ?? [],
  date1904: extras.date1904 ?? false,
});

/** A cell's value: error codes as text, "not evaluated: reason" where there is none, what the file holds where nothing computes. */
export function read(book: Book, evaluation: Evaluation, address: string, sheetIndex = 0): CellValue {
  const { row, column } = place(address);
  const outcome = evaluation.outcome(sheetIndex, row, column);
  if (!outcome) return book.sheets[sheetIndex]?.cells.get(buildCellKey(row, column))?.value ?? null;
  if (!outcome.evaluated) return `not evaluated: ${outcome.reason}`;
  return outcome.value instanceof ErrorValue ? outcome.value.code : outcome.value;
}

/** Evaluates one sheet of contents and reads cells by address. */
export function evaluated(
  contents: Readonly<Record<string, Content>>,
  options: EvaluateOptions = {},
  extras: Extras = {},
): { at: (address: string) => CellValue; evaluation: Evaluation; book: Book } {
  const book = bookOf([sheet("Sheet1", contents)], extras);
  const evaluation = evaluateBook(book, options);
  return { at: (address) => read(book, evaluation, address), evaluation, book };
}

/** The value of one formula in Z1 beside other cells. */
export function value(
  formula: string,
  contents: Readonly<Record<string, Content>> = {},
  extras: Extras = {},
): CellValue {
  return evaluated({ ...contents, Z1: f(formula) }, {}, extras).at("Z1");
}

/** The top-left value of a dynamic array formula in Z1. */
export function arrayValue(formula: string, contents: Readonly<Record<string, Content>> = {}): CellValue {
  return evaluated({ ...contents, Z1: dynamic("Z1", formula) }).at("Z1");
}
