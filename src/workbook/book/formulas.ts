import { type ReadFormula, readFormula } from "../formula/parse/parse";
import type { AreaNode, Node, Parsed } from "../formula/parse/syntax";
import { Names, SheetNames } from "./names";
import { resolveArea } from "../formula/references/references";
import type { Place, SheetArea } from "./area";
import { Reference } from "../formula/values/value";
import { ErrorValue, type Book, type Formula } from "../model";

/** What the references and names in the formulas of one book mean. Nothing is evaluated. */
export class BookFormulas {
  readonly sheetNames: SheetNames;
  readonly names: Names;

  constructor(book: Book) {
    this.sheetNames = new SheetNames(book);
    this.names = new Names(book, this.sheetNames);
  }

  /** What a defined name or a table's name stands for as it is used at a place; undefined where it means nothing. */
  resolveName({ name, sheet }: Node & { type: "name" }, place: Place): Parsed | undefined {
    const found = this.names.find(name.toLowerCase(), sheet, place.sheet);
    return found instanceof ErrorValue ? undefined : found;
  }

  /** The areas that a reference means at a place: several across sheets, none where a sheet is missing. */
  resolveAreas(node: AreaNode, place: Place): readonly SheetArea[] {
    const found = resolveArea(node, place, this.sheetNames);
    return found instanceof Reference ? found.areas : [];
  }
}

const booksRead = new WeakMap<Book, BookFormulas>();

/** The names of a book and what its formulas mean, made once; they live as long as the book does. */
export function recallFormulas(book: Book): BookFormulas {
  let formulas = booksRead.get(book);
  if (!formulas) booksRead.set(book, (formulas = new BookFormulas(book)));
  return formulas;
}

type CellPlace = Pick<Place, "row" | "column">;

/** The tree of a cell's formula. */
export function parseCellFormula(formula: Formula, place: CellPlace): Parsed {
  return readOnce(formula, place).parsed;
}

/** A cell's formula relative to the cell: copies of one formula along a row or column share it. */
export function buildFormulaPattern(formula: Formula, place: CellPlace): string {
  return readOnce(formula, place).pattern;
}

/** Formulas of cells as they were read, each once; a copy of a book with other cells shares those that it did not change. */
const readFormulas = new WeakMap<Formula, CellPlace & { readonly read: ReadFormula }>();

function readOnce(formula: Formula, { row, column }: CellPlace): ReadFormula {
  const known = readFormulas.get(formula);
  if (known?.row === row && known.column === column) return known.read;
  const read = readFormula(formula.text, row, column);
  readFormulas.set(formula, { row, column, read });
  return read;
}
