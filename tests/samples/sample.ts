import { readFileSync } from "node:fs";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { evaluateBook, openWorkbook, type Book, type CellValue, type Evaluation } from "../../src/workbook/index";
import { cellAt } from "./look-up";
import { placeOf } from "./package";
import { cellsOf, partsOf, sheetParts, unlockedStyles } from "./parts";

const addIn = addInRegistry();

/** A sample workbook after a few cells were typed anew. */
export interface Typed {
  readonly book: Book;
  readonly evaluation: Evaluation;
  /** A cell by its sheet and address, "Fan!C6". */
  readonly cell: (place: string) => CellValue;
}

interface Sample {
  readonly book: Book;
  /** The workbook with cells typed anew, as a person would: "Fan!C6" and its value, null for a cell emptied. */
  readonly typed: (changes?: Readonly<Record<string, CellValue>>, blankAsZero?: boolean) => Typed;
  /** Every cell that a person may type into and that holds something, by sheet and address. */
  readonly typedCells: readonly string[];
}

/** A sample workbook as it lies in the project. */
export function sample(file: string): Sample {
  const bytes = new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${file}`, import.meta.url)));
  const { book } = openWorkbook(bytes);
  const typed: Sample["typed"] = (changes = {}, blankAsZero = false) => {
    const set = Object.entries(changes).map(([place, value]) => ({ ...split(place), value }));
    const evaluation = evaluateBook(book, { addIn, set, blankAsZero });
    const cell = (place: string) => {
      const { sheet, row, column } = split(place);
      const index = book.sheets.findIndex(({ name }) => name === sheet);
      return cellAt(book, evaluation, index, row, column);
    };
    return { book, evaluation, cell };
  };
  const parts = partsOf(bytes);
  const unlocked = unlockedStyles(parts);
  const typedCells = sheetParts(parts).flatMap(({ name, xml }) =>
    cellsOf(xml)
      .filter(({ style, element }) => unlocked.has(style) && !element.endsWith("/>"))
      .map(({ address }) => `${name}!${address}`),
  );
  return { book, typed, typedCells };
}

function split(place: string): { sheet: string; row: number; column: number } {
  const [sheet = "", address = ""] = place.split("!");
  return { sheet, ...placeOf(address) };
}

/** Errors among the cells of a workbook, each with its place. */
export function errorsOf({ book, evaluation }: Typed): string[] {
  return evaluation.cells.flatMap(({ sheet, address, outcome }) => {
    if (!outcome.evaluated) return [`${address}: ${outcome.reason}`];
    const { value } = outcome;
    const isError = typeof value === "object" && value !== null && "code" in value;
    return isError ? [`${book.sheets[sheet]?.name ?? ""} ${address}: ${value.code}`] : [];
  });
}
