import type { Area, Book, CellValue, Formula } from "../model";
import { ErrorValue, cellKey } from "../model";
import { Names } from "../formula/names";
import { Parser } from "../formula/parse";
import { resolveArea, SheetNames } from "../formula/references";
import { children, type Node } from "../formula/syntax";
import { Reference } from "../formula/value";

/** A cell that an issue copy holds as a value. */
export interface FrozenCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly formula: Formula;
  readonly value: CellValue;
  /** The cells that its formula fills. */
  readonly area: Area;
}

interface Place {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

const addInText = /_xldudf_|\bSTILLAIR\./i;
const keyOf = ({ sheet, row, column }: Place): string => `${sheet} ${cellKey(row, column)}`;

/**
 * The cells that cannot live without the add-in: those whose formula calls it, by itself or by a defined name, that open one of its cards
 * (A1.n50), or that take the whole of a frozen array (A1#), which a value no longer has.
 */
export function frozenCells(book: Book): FrozenCell[] {
  const finder = new Finder(book);
  const found = new Map<string, FrozenCell>();
  // Each pass may freeze arrays that others take whole; it ends, since a cell is frozen once.
  for (let size = -1; size < found.size;) {
    size = found.size;
    for (const [sheet, { cells }] of book.sheets.entries())
      for (const { row, column, formula, value } of cells.values()) {
        const place = { sheet, row, column };
        if (!formula || found.has(keyOf(place)) || !finder.needsAddIn(formula, place, found)) continue;
        const area = formula.array ?? { top: row, left: column, bottom: row, right: column };
        found.set(keyOf(place), { ...place, formula, value, area });
      }
  }
  return [...found.values()].sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
}

class Finder {
  private readonly parser = new Parser();
  private readonly sheets: SheetNames;
  private readonly names: Names;

  constructor(book: Book) {
    this.sheets = new SheetNames(book);
    this.names = new Names(book, this.parser, this.sheets);
  }

  needsAddIn({ text }: Formula, place: Place, frozen: ReadonlyMap<string, FrozenCell>): boolean {
    return (
      addInText.test(withoutTexts(text)) ||
      this.within(this.parser.parse(text, place.row, place.column).root, place, frozen, 0)
    );
  }

  private within(node: Node, place: Place, frozen: ReadonlyMap<string, FrozenCell>, depth: number): boolean {
    if (node.type === "addIn" || (node.type === "call" && node.name === "_FV")) return true;
    if (node.type === "name" && depth < 8) {
      const found = this.names.find(node.name.toLowerCase(), node.sheet, place.sheet);
      return found !== undefined && !(found instanceof ErrorValue) && this.within(found.root, place, frozen, depth + 1);
    }
    if (node.type === "spill") {
      const anchor = this.anchorOf(node.operand, place);
      if (anchor !== undefined && frozen.has(keyOf(anchor))) return true;
    }
    return children(node).some((child) => child !== null && this.within(child, place, frozen, depth));
  }

  private anchorOf(node: Node, place: Place): Place | undefined {
    if (node.type === "area") {
      const reference = resolveArea(node, place, this.sheets);
      const area = reference instanceof Reference ? reference.area : undefined;
      return area && { sheet: area.sheet, row: area.top, column: area.left };
    }
    if (node.type !== "name") return undefined;
    const found = this.names.find(node.name.toLowerCase(), node.sheet, place.sheet);
    return found && !(found instanceof ErrorValue) ? this.anchorOf(found.root, place) : undefined;
  }
}

const withoutTexts = (text: string): string => text.replace(/"(?:[^"]|"")*"/g, '""');
