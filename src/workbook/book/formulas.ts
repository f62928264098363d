import { type ReadFormula, readFormula } from "../formula/parse/parse";
import { type AreaNode, type Node, type Parsed, unrollChain } from "../formula/parse/syntax";
import { Names, SheetNames } from "./names";
import { resolveArea } from "../formula/references/references";
import type { Place, SheetArea } from "./area";
import { Reference } from "../formula/values/value";
import { ErrorValue, type Book, type Formula } from "../model";

/** What the references and names in one book's formulas refer to. Nothing is evaluated. */
export class BookFormulas {
  readonly sheetNames: SheetNames;
  readonly names: Names;

  constructor(book: Book) {
    this.sheetNames = new SheetNames(book);
    this.names = new Names(book, this.sheetNames);
  }

  /** What a defined name or a table's name refers to when used at a place; undefined if it is not defined there. */
  resolveName({ name, sheet }: Node & { type: "name" }, place: Place): Parsed | undefined {
    const found = this.names.find(name.toLowerCase(), sheet, place.sheet);
    return found instanceof ErrorValue ? undefined : found;
  }

  /** The areas a reference refers to at a place: several across sheets, none if a sheet is missing. */
  resolveAreas(node: AreaNode, place: Place): readonly SheetArea[] {
    const found = resolveArea(node, place, this.sheetNames);
    return found instanceof Reference ? found.areas : [];
  }

  /** The areas that a name of the whole workbook refers to, in its order; none if there is no such name or it is a formula. */
  listNamedAreas(name: string): readonly SheetArea[] {
    const home = { sheet: 0, row: 0, column: 0 };
    const listAreas = (node: Node): readonly SheetArea[] => {
      if (node.type === "area") return this.resolveAreas(node, home);
      if (node.type !== "join") return [];
      const { first, steps } = unrollChain(node);
      const isUnion = steps.every(({ operator }) => operator === ",");
      return isUnion ? [first, ...steps.map(({ right }) => right)].flatMap(listAreas) : [];
    };
    const named = this.resolveName({ type: "name", name, sheet: "" }, home);
    return named ? listAreas(named.root) : [];
  }
}

const booksRead = new WeakMap<Book, BookFormulas>();

/** The names and parsed formulas of a book, made once and kept as long as the book. */
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

/** A cell's formula relative to the cell, shared by copies of one formula along a row or column. */
export function buildFormulaPattern(formula: Formula, place: CellPlace): string {
  return readOnce(formula, place).pattern;
}

/** Parsed formulas of cells, each once; a copy of a book with other cells shares the unchanged ones. */
const readFormulas = new WeakMap<Formula, CellPlace & { readonly read: ReadFormula }>();

function readOnce(formula: Formula, { row, column }: CellPlace): ReadFormula {
  const known = readFormulas.get(formula);
  if (known?.row === row && known.column === column) return known.read;
  const read = readFormula(formula.text, row, column);
  readFormulas.set(formula, { row, column, read });
  return read;
}
