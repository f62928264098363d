import { Names } from "../formula/references/names";
import { parseFormula } from "../formula/parse/parse";
import { resolveArea, SheetNames, type Place } from "../formula/references/references";
import type { AreaNode, Node, Parsed } from "../formula/parse/syntax";
import { Reference, type SheetArea } from "../formula/values/value";
import { ErrorValue, type Book } from "../model";

/** The formulas of one book as text: parsed, with what their references and names mean. Nothing is evaluated. */
export class BookFormulas {
  readonly sheetNames: SheetNames;
  readonly names: Names;

  constructor(book: Book) {
    this.sheetNames = new SheetNames(book);
    this.names = new Names(book, this.sheetNames);
  }

  parsed(text: string, place: Place): Parsed {
    return parseFormula(text, place.row, place.column);
  }

  /** What a defined name or a table's name stands for as it is used at a place; undefined where it means nothing. */
  meaningOf({ name, sheet }: Node & { type: "name" }, place: Place): Parsed | undefined {
    const found = this.names.find(name.toLowerCase(), sheet, place.sheet);
    return found instanceof ErrorValue ? undefined : found;
  }

  /** The areas that a reference means at a place: several across sheets, none where a sheet is missing. */
  areasOf(node: AreaNode, place: Place): readonly SheetArea[] {
    const found = resolveArea(node, place, this.sheetNames);
    return found instanceof Reference ? found.areas : [];
  }
}
