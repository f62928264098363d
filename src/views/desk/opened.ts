import {
  type AddInCall,
  type AddInRegistry,
  type Book,
  buildCellKey,
  type CellChange,
  type CellValue,
  type Evaluation,
  evaluateBook,
  formatCellText,
  formatFullAddress,
  Inspector,
  type OpenedWorkbook,
  openWorkbook,
  parseSheetArea,
  TestsInBook,
  withFrozenFormulas,
  WorkbookProblem,
} from "../../workbook/index";
import type { CellPlace } from "./answers";
import { type CellsContent, readBook } from "./cells";

/** A workbook as the desk holds it: opened, evaluated once, with the inspector that every answer uses. */
export interface Desktop {
  readonly name: string;
  /** Undefined where only the cells are known, not the file. */
  readonly opened: OpenedWorkbook | undefined;
  /** With the frozen formulas of an issue copy put back. */
  readonly book: Book;
  readonly addIn: AddInRegistry;
  readonly now: Date;
  readonly evaluation: Evaluation;
  readonly calls: readonly AddInCall[];
  readonly view: Inspector;
  readonly tests: TestsInBook;
}

export function openDesktop(name: string, bytes: Uint8Array, addIn: AddInRegistry): Desktop {
  const opened = openWorkbook(bytes);
  const book = withFrozenFormulas(opened.book);
  return evaluateDesktop({ name, opened, book, addIn, now: new Date() }, []);
}

/** The workbook of which a program shows the cells, but does not hand over the file. */
export function openCells(name: string, content: CellsContent, addIn: AddInRegistry): Desktop {
  return evaluateDesktop({ name, opened: undefined, book: readBook(content), addIn, now: new Date() }, []);
}

/** The file of a workbook, for what needs more than its cells. */
export function requireFile({ opened }: Desktop): OpenedWorkbook {
  if (opened) return opened;
  throw new WorkbookProblem(
    "no workbook",
    "this Excel does not hand over the whole file: save the workbook and open it in the review page",
  );
}

/** The same workbook with other values in some cells; the file is not changed. */
export function evaluateDesktop(
  { name, opened, book, addIn, now }: Pick<Desktop, "name" | "opened" | "book" | "addIn" | "now">,
  set: readonly CellChange[],
): Desktop {
  const calls: AddInCall[] = [];
  const evaluation = evaluateBook(book, { addIn, now, calls, set });
  const view = new Inspector(book, evaluation, addIn, now);
  return { name, opened, book, addIn, now, evaluation, calls, view, tests: new TestsInBook(view, calls) };
}

/** The place of "Sheet!B4" or "'A sheet'!B4"; of an area, its first cell. */
export function findPlace({ book }: Pick<Desktop, "book">, address: string): CellPlace | undefined {
  const area = parseSheetArea(address, book.sheets);
  return area && { sheet: area.sheet, row: area.top, column: area.left };
}

export const formatPlace = ({ book }: Pick<Desktop, "book">, { sheet, row, column }: CellPlace): string =>
  formatFullAddress(book.sheets[sheet]?.name ?? "", row, column);

/** A cell as its sheet shows it. */
export function showCell({ book, view }: Desktop, place: CellPlace): string {
  return showValue(book, place, view.readValue(place));
}

export function showValue(book: Book, { sheet, row, column }: CellPlace, value: CellValue): string {
  const format = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.format ?? "General";
  return formatCellText(value, format, book.date1904);
}

/** What a sheet calls a cell, with its symbol. */
export function labelCell({ view }: Desktop, { sheet, row, column }: CellPlace): { label: string; unit: string } {
  const { text, symbol, unit } = view.labels.describeAt(sheet, row, column);
  const label = symbol === "" || text.includes(symbol) ? text : text === "" ? symbol : `${text} (${symbol})`;
  return { label, unit };
}
