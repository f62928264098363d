import { columnsOf, isInside, isWithin, rowsOf } from "../formula/values/value";
import { cellKey, type Area, type Book, type Cell } from "../model";
import type { FormulaBlock } from "./formula-blocks";

/** A cell amid formulas of one kind that is none of them and is not frozen: typed over, blank, or with a formula of its own. */
export interface CellApart {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly kind: "typed" | "blank" | "live formula";
  readonly cell: Cell | undefined;
}

/** What lies between two blocks of one formula and is not what they are. */
export interface Gap {
  readonly before: FormulaBlock;
  readonly after: FormulaBlock;
  readonly blocks: readonly FormulaBlock[];
  readonly cells: readonly CellApart[];
}

/** The widest gap that is taken for an exception; further apart, or wide beside short blocks, are two tables of one make. */
const widest = 5;

/** The gaps in columns and rows of one formula: cells that a reviewer would take for more of the same. */
export function gapsOf(book: Book, blocks: readonly FormulaBlock[]): Gap[] {
  return [true, false].flatMap((across) => {
    const lines = new Map<string, FormulaBlock[]>();
    for (const block of blocks) {
      const { top, bottom, left, right } = block.area;
      const line = [block.key, ...(across ? [top, bottom] : [left, right])].join(" ");
      lines.set(line, [...(lines.get(line) ?? []), block]);
    }
    return [...lines.values()].flatMap((line) => gapsAlong(book, blocks, line, across));
  });
}

function gapsAlong(book: Book, blocks: readonly FormulaBlock[], line: readonly FormulaBlock[], across: boolean): Gap[] {
  const start = ({ area }: FormulaBlock): number => (across ? area.left : area.top);
  const length = ({ area }: FormulaBlock): number => (across ? columnsOf(area) : rowsOf(area));
  const sorted = [...line].sort((a, b) => start(a) - start(b));
  return sorted.slice(1).flatMap((after, place) => {
    const before = sorted[place]!;
    const width = start(after) - start(before) - length(before);
    if (width < 1 || width > widest || length(before) + length(after) < 3 * width) return [];
    const area = across
      ? { ...before.area, left: before.area.right + 1, right: after.area.left - 1 }
      : { ...before.area, top: before.area.bottom + 1, bottom: after.area.top - 1 };
    const inGap = blocks.filter((block) => block.sheet === before.sheet && isWithin(block.area, area));
    const cells = cellsApart(book, before.sheet, area, inGap, width === 1);
    return inGap.length + cells.length > 0 ? [{ before, after, blocks: inGap, cells }] : [];
  });
}

/** A single line of blanks or words amid formulas counts too; more of them part two tables. */
function cellsApart(
  book: Book,
  sheet: number,
  area: Area,
  blocks: readonly FormulaBlock[],
  withWords: boolean,
): CellApart[] {
  const found: CellApart[] = [];
  const { cells } = book.sheets[sheet]!;
  for (let row = area.top; row <= area.bottom; row += 1)
    for (let column = area.left; column <= area.right; column += 1) {
      if (blocks.some((block) => isInside(block.area, row, column))) continue;
      const cell = cells.get(cellKey(row, column));
      const kind = cell?.formula ? "live formula" : (cell?.value ?? null) === null ? "blank" : "typed";
      if (!withWords && (kind === "blank" || (kind === "typed" && typeof cell?.value === "string"))) continue;
      found.push({ sheet, row, column, kind, cell });
    }
  return found;
}
