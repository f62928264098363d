import { areaAddress } from "../formula/parse/address";
import { asTyped } from "../formula/parse/as-typed";
import { columnsOf, isSingleCell, rowsOf } from "../formula/values/value";
import type { Area, Book, CellValue } from "../model";
import { gapsOf, type CellApart } from "./cells-apart";
import { formulaBlocks, type FormulaBlock } from "./formula-blocks";
import type { FrozenCell } from "./frozen-cells";
import { labelsOf } from "./labels";
import { kindText } from "./listed-formulas";
import type { ListLine } from "./list-sheet";
import { valuesTold } from "./values-told";

interface Placed {
  readonly area: Area;
  readonly sheet: number;
  /** The area of the first block of the column or row that the line interrupts or goes on with. */
  readonly beginning: Area;
  readonly line: ListLine;
}

/**
 * The lines of the list: formulas that are one in an area share a line; what interrupts such an area stands out, right between its parts,
 * be it another frozen formula or a cell that is not frozen at all.
 */
export function listLines(book: Book, frozen: readonly FrozenCell[]): ListLine[] {
  const blocks = formulaBlocks(frozen);
  const beginnings = new Map<FormulaBlock, Area>();
  const apart = new Set<FormulaBlock>();
  const cells = new Map<string, { readonly cell: CellApart; readonly beginning: Area }>();
  for (const { before, after, blocks: within, cells: others } of gapsOf(book, blocks)) {
    const beginning = beginnings.get(before) ?? before.area;
    for (const block of [after, ...within]) if (!beginnings.has(block)) beginnings.set(block, beginning);
    for (const block of within) apart.add(block);
    for (const cell of others) cells.set(`${cell.sheet} ${cell.row} ${cell.column}`, { cell, beginning });
  }
  const describe = describer(book);
  const placed: Placed[] = [
    ...blocks.map((block) => ({
      ...block,
      beginning: beginnings.get(block) ?? block.area,
      line: describe.block(block, apart.has(block)),
    })),
    ...[...cells.values()].map(({ cell, beginning }) => ({
      sheet: cell.sheet,
      area: areaOfCell(cell),
      beginning,
      line: describe.cell(cell),
    })),
  ];
  const byPlace = (a: Area, b: Area): number => a.top - b.top || a.left - b.left;
  return placed
    .sort((a, b) => a.sheet - b.sheet || byPlace(a.beginning, b.beginning) || byPlace(a.area, b.area))
    .map(({ line }) => line);
}

const areaOfCell = ({ row, column }: CellApart): Area => ({ top: row, left: column, bottom: row, right: column });

/** Words that stand before what a cell is, where it interrupts a column or row of one formula. */
const unlike = "Unlike the cells around it";

function describer(book: Book) {
  const labels = labelsOf(book);
  const told = (standsOut: boolean, what: string): string =>
    [standsOut ? unlike : "", what].filter((part) => part !== "").join(": ");
  const ofCell = (sheet: number, row: number, column: number): string => {
    const { text, symbol } = labels.of(sheet, row, column);
    return [text, symbol].filter((part) => part !== "").join(", ");
  };
  return {
    block({ sheet, area, count, kind, first }: FormulaBlock, standsOut: boolean): ListLine {
      const what = isSingleCell(area) ? ofCell(sheet, area.top, area.left) : labels.ofArea({ sheet, ...area }).text;
      return {
        sheet: book.sheets[sheet]!.name,
        cells: areaAddress(area),
        count,
        kind: kindText(kind, count, first.area),
        what: told(standsOut, what),
        formula: asTyped(first.formula.text),
        value: valueOf(book, sheet, area, count, first),
        standsOut,
      };
    },
    cell(one: CellApart): ListLine {
      const { sheet, row, column, kind, cell } = one;
      return {
        sheet: book.sheets[sheet]!.name,
        cells: areaAddress(areaOfCell(one)),
        count: 1,
        kind,
        what: told(true, ofCell(sheet, row, column)),
        formula: cell?.formula ? asTyped(cell.formula.text) : "",
        value: cell?.value ?? null,
        standsOut: true,
      };
    },
  };
}

function valueOf(book: Book, sheet: number, area: Area, count: number, { value }: FrozenCell): CellValue {
  if (isSingleCell(area)) return value;
  if (count > 1) return valuesTold(book.sheets[sheet]!, area);
  return `${counted(rowsOf(area), "row")}, ${counted(columnsOf(area), "column")}`;
}

const counted = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? "" : "s"}`;
