import type { Area, Book, CellValue, Formula } from "../model";
import { buildCellKey } from "../model";
import type { Place } from "../book/area";
import { blankTexts } from "../formula/parse/formula-text";
import { listDescendants, type Node } from "../formula/parse/syntax";
import { type BookFormulas, recallFormulas, parseCellFormula } from "../book/formulas";

/** A cell that becomes a value in an issue copy. */
export interface FrozenCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly formula: Formula;
  readonly value: CellValue;
  /** The cells filled by its formula. */
  readonly area: Area;
}

const addInText = /_xldudf_|\bSTILLAIR\./i;
/** The depth to which names within names are followed, since two may refer to each other. */
const deepestName = 8;
const buildPlaceKey = ({ sheet, row, column }: Place): string => `${sheet} ${buildCellKey(row, column)}`;

/**
 * The cells that need the add-in: those whose formula calls it, directly or through a defined name, that read one of its cards
 * (A1.n50), or that refer to the whole of a frozen array (A1#), which a value no longer has.
 */
export function findFrozenCells(book: Book): FrozenCell[] {
  const finder = new Finder(book);
  const found = new Map<string, FrozenCell>();
  // Each pass may freeze arrays that others refer to as a whole; it terminates, since a cell is frozen once.
  for (let size = -1; size < found.size;) {
    size = found.size;
    for (const [sheet, { cells }] of book.sheets.entries())
      for (const { row, column, formula, value } of cells.values()) {
        const place = { sheet, row, column };
        if (!formula || found.has(buildPlaceKey(place)) || !finder.needsAddIn(formula, place, found)) continue;
        const area = formula.array ?? { top: row, left: column, bottom: row, right: column };
        found.set(buildPlaceKey(place), { ...place, formula, value, area });
      }
  }
  return [...found.values()].sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
}

class Finder {
  private readonly formulas: BookFormulas;

  constructor(book: Book) {
    this.formulas = recallFormulas(book);
  }

  needsAddIn(formula: Formula, place: Place, frozen: ReadonlyMap<string, FrozenCell>): boolean {
    return (
      addInText.test(blankTexts(formula.text)) ||
      this.reachesAddIn(parseCellFormula(formula, place).root, place, frozen)
    );
  }

  /** Searches a formula and the names it uses, each name once. */
  private reachesAddIn(root: Node, place: Place, frozen: ReadonlyMap<string, FrozenCell>): boolean {
    const roots = new Set([root]);
    for (const each of roots)
      for (const node of listDescendants(each)) {
        if (node.type === "addIn" || (node.type === "call" && node.name === "_FV")) return true;
        const meant = node.type === "name" ? this.formulas.resolveName(node, place) : undefined;
        if (meant) roots.add(meant.root);
        const anchor = node.type === "spill" ? this.findAnchor(node.operand, place, 0) : undefined;
        if (anchor && frozen.has(buildPlaceKey(anchor))) return true;
      }
    return false;
  }

  private findAnchor(node: Node, place: Place, depth: number): Place | undefined {
    if (node.type === "area") {
      const [area, ...more] = this.formulas.resolveAreas(node, place);
      return area && more.length === 0 ? { sheet: area.sheet, row: area.top, column: area.left } : undefined;
    }
    const meant = node.type === "name" && depth < deepestName ? this.formulas.resolveName(node, place) : undefined;
    return meant && this.findAnchor(meant.root, place, depth + 1);
  }
}
