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
  readInputs,
  TestsInBook,
  withFrozenFormulas,
} from "../../workbook/index";
import { Refusal } from "./refusal";
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
  readonly inputs: ReturnType<typeof readInputs>;
  readonly labels: ReturnType<Inspector["createLabels"]>;
}

export function openDesktop(name: string, bytes: Uint8Array, addIn: AddInRegistry): Desktop {
  const opened = openWorkbook(bytes);
  const book = withFrozenFormulas(opened.book);
  const start = performance.now();
  const desktop = evaluateDesktop({ name, opened, book, addIn, now: new Date(), inputs: readInputs(opened) }, []);
  // What the bench compares the first view with.
  performance.measure("evaluation", { start });
  return desktop;
}

/** The workbook of which a program shows the cells, but does not hand over the file. */
export function openCells(name: string, content: CellsContent, addIn: AddInRegistry): Desktop {
  const book = readBook(content);
  return evaluateDesktop({ name, opened: undefined, book, addIn, now: new Date(), inputs: typedNumbersOf(book) }, []);
}

/** Where the rules of the sheets are not known, every typed number counts as an input. */
const typedNumbersOf = ({ sheets }: Book): Desktop["inputs"] => ({
  isProtected: () => false,
  isLocked: () => false,
  isInput: (sheet, row, column) => {
    const cell = sheets[sheet]?.cells.get(buildCellKey(row, column));
    return typeof cell?.value === "number" && !cell.formula;
  },
  rulesOf: () => [],
});

/** The file of a workbook, for what needs more than its cells. */
export function requireFile({ opened }: Desktop): OpenedWorkbook {
  if (opened) return opened;
  throw Refusal.of("noFile");
}

/** The same workbook with other values in some cells; the file is not changed. */
export function evaluateDesktop(
  { name, opened, book, addIn, now, inputs }: Pick<Desktop, "name" | "opened" | "book" | "addIn" | "now" | "inputs">,
  set: readonly CellChange[],
): Desktop {
  const calls: AddInCall[] = [];
  const evaluation = evaluateBook(book, { addIn, now, calls, set });
  const view = new Inspector(book, evaluation, addIn, now);
  const tests = new TestsInBook(view, calls);
  const labels = view.createLabels(inputs.isInput);
  return { name, opened, book, addIn, now, inputs, evaluation, calls, view, tests, labels };
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
export function labelCell({ labels }: Desktop, { sheet, row, column }: CellPlace): { label: string; unit: string } {
  const { text, symbol, unit } = labels.describeAt(sheet, row, column);
  const label = symbol === "" || text.includes(symbol) ? text : text === "" ? symbol : `${text} (${symbol})`;
  return { label, unit };
}
