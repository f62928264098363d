import {
  formatAreaAddress,
  formatCellAddress,
  compareWithStored,
  evaluateBook,
  FormulaReader,
  openWorkbook,
  type Area,
  type Book,
  type Cell,
} from "../../../src/workbook/index";
import type { Content } from "../../workbook/formula/book";
import { workbooksIn } from "../../reference/workbooks";
import { bookOfVector, textOfVectors, type Vector } from "./vectors";

/** The vectors of a folder of workbooks: a file for each of its folders, by name, with its text. */
export function distilled(folder: string): Map<string, string> {
  const byFile = new Map<string, Record<string, Vector>>();
  for (const [path, bytes] of workbooksIn(folder)) {
    const [group = "", workbook = ""] = path.split("/");
    const file = `${group.toLowerCase().replaceAll("_", "-")}.json`;
    byFile.set(file, { ...byFile.get(file), [workbook]: vectorOf(path, openWorkbook(bytes).book) });
  }
  return new Map([...byFile].map(([file, vectors]) => [file, textOfVectors(vectors)]));
}

/**
 * The vector of a workbook: its formulas, what their arrays fill, and the typed cells that they read. Where formulas compute the
 * addresses that they read, every cell is kept. Number formats, hidden rows and the like are left out. Throws where a vector does
 * not evaluate as its workbook does, cell by cell, reasons and differences included.
 */
function vectorOf(path: string, book: Book): Vector {
  const wanted = outcomesOf(book);
  for (const areas of [areasNeeded(book), undefined]) {
    const vector = vectorWith(book, areas);
    if (outcomesOf(bookOfVector(vector)) === wanted) return vector;
  }
  throw new Error(`${path} depends on something that vectors do not hold`);
}

function outcomesOf(book: Book): string {
  const evaluation = evaluateBook(book);
  const { cells, cycles } = evaluation;
  return JSON.stringify([cells, cycles, compareWithStored(book, evaluation)]);
}

/** For each sheet, what the formulas of the book read and what their arrays fill. */
function areasNeeded(book: Book): Area[][] {
  const reader = new FormulaReader(book);
  const areas: Area[][] = book.sheets.map(() => []);
  for (const [sheet, { cells }] of book.sheets.entries())
    for (const { row, column, formula } of cells.values()) {
      if (!formula) continue;
      if (formula.array) areas[sheet]?.push(formula.array);
      for (const read of reader.reads(formula.text, { sheet, row, column }).areas) areas[read.sheet]?.push(read);
    }
  return areas;
}

function vectorWith({ sheets, names }: Book, areas: readonly (readonly Area[])[] | undefined): Vector {
  const isNeeded = ({ row, column, formula }: Cell, sheet: number): boolean =>
    formula !== undefined ||
    areas === undefined ||
    (areas[sheet] ?? []).some(
      ({ top, left, bottom, right }) => row >= top && row <= bottom && column >= left && column <= right,
    );
  return {
    sheets: sheets.map(({ name, cells }, index) => ({
      name,
      cells: Object.fromEntries(
        [...cells.values()]
          .filter((cell) => isNeeded(cell, index))
          .map((cell) => [formatCellAddress(cell.row, cell.column), contentOf(cell)]),
      ),
    })),
    names,
  };
}

function contentOf({ value, formula }: Cell): Content {
  if (!formula) return value;
  return {
    formula: formula.text,
    ...(value !== null && { stored: value }),
    ...(formula.array && { array: formatAreaAddress(formula.array) }),
    ...(formula.dynamic && { dynamic: true }),
  };
}
