import { SharedFormula } from "../file/sheet/formulas";
import { formatAreaAddress } from "../book/address";
import { toStoredForm, toTypedForm } from "../formula/parse/formula-text";
import { buildFormulaPattern } from "../book/formulas";
import { columnsOf, isInside, isSingleCell, isWithin, rowsOf } from "../book/area";
import { type Area, type Book, type Cell, buildCellKey, type CellValue, ErrorValue, type Sheet } from "../model";
import { Labels } from "../book/labels";
import type { FrozenCell } from "./frozen-cells";
import type { ListLine } from "./list-sheet";
import { type FrozenKind, describeKind } from "./mark";

interface Placed {
  readonly area: Area;
  readonly sheet: number;
  /** The area of the first block of the column or row that the line interrupts or continues. */
  readonly beginning: Area;
  readonly line: ListLine;
}

/**
 * The lines of the list: an area of one formula shares a line; anything interrupting it is highlighted between its parts,
 * whether another frozen formula or a cell that is not frozen.
 */
export function listLines(book: Book, frozen: readonly FrozenCell[]): ListLine[] {
  const blocks = groupIntoBlocks(frozen);
  const beginnings = new Map<FormulaBlock, Area>();
  const apart = new Set<FormulaBlock>();
  const cells = new Map<string, { readonly cell: CellApart; readonly beginning: Area }>();
  for (const { before, after, blocks: within, cells: others } of findGaps(book, blocks)) {
    const beginning = beginnings.get(before) ?? before.area;
    for (const block of [after, ...within]) if (!beginnings.has(block)) beginnings.set(block, beginning);
    for (const block of within) apart.add(block);
    for (const cell of others) cells.set(`${cell.sheet} ${cell.row} ${cell.column}`, { cell, beginning });
  }
  const describe = createDescriber(book);
  const placed: Placed[] = [
    ...blocks.map((block) => ({
      ...block,
      beginning: beginnings.get(block) ?? block.area,
      line: describe.describeBlock(block, apart.has(block)),
    })),
    ...[...cells.values()].map(({ cell, beginning }) => ({
      sheet: cell.sheet,
      area: toArea(cell),
      beginning,
      line: describe.describeCellApart(cell),
    })),
  ];
  const comparePlaces = (a: Area, b: Area): number => a.top - b.top || a.left - b.left;
  return placed
    .sort((a, b) => a.sheet - b.sheet || comparePlaces(a.beginning, b.beginning) || comparePlaces(a.area, b.area))
    .map(({ line }) => line);
}

const toArea = ({ row, column }: CellApart): Area => ({ top: row, left: column, bottom: row, right: column });

/** Words put before a cell's description if it interrupts a column or row of one formula. */
const unlike = "Unlike the cells around it";

function createDescriber(book: Book) {
  const labels = readLabels(book);
  const joinRemarks = (standsOut: boolean, what: string): string =>
    [standsOut ? unlike : "", what].filter((part) => part !== "").join(": ");
  const describeCell = (sheet: number, row: number, column: number): string => {
    const { text, symbol } = labels.describeAt(sheet, row, column);
    return [text, symbol].filter((part) => part !== "").join(", ");
  };
  return {
    describeBlock({ sheet, area, count, kind, first }: FormulaBlock, standsOut: boolean): ListLine {
      const what = isSingleCell(area)
        ? describeCell(sheet, area.top, area.left)
        : labels.describeArea({ sheet, ...area }).text;
      return {
        sheet: book.sheets[sheet]!.name,
        cells: formatAreaAddress(area),
        count,
        kind: describeKind(kind, count, first.area),
        what: joinRemarks(standsOut, what),
        formula: toTypedForm(first.formula.text),
        value: summarizeBlock(book, sheet, area, count, first),
        standsOut,
      };
    },
    describeCellApart(one: CellApart): ListLine {
      const { sheet, row, column, kind, cell } = one;
      return {
        sheet: book.sheets[sheet]!.name,
        cells: formatAreaAddress(toArea(one)),
        count: 1,
        kind,
        what: joinRemarks(true, describeCell(sheet, row, column)),
        formula: cell?.formula ? toTypedForm(cell.formula.text) : "",
        value: cell?.value ?? null,
        standsOut: true,
      };
    },
  };
}

function summarizeBlock(book: Book, sheet: number, area: Area, count: number, { value }: FrozenCell): CellValue {
  if (isSingleCell(area)) return value;
  if (count > 1) return summarizeValues(book.sheets[sheet]!, area);
  return `${formatCount(rowsOf(area), "row")}, ${formatCount(columnsOf(area), "column")}`;
}

const formatCount = (count: number, noun: string): string => `${count} ${noun}${count === 1 ? "" : "s"}`;

/** An unfrozen cell among copies of one formula that is not one of them: overwritten, blank, or with a different formula. */
interface CellApart {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly kind: "typed" | "blank" | "live formula";
  readonly cell: Cell | undefined;
}

/** What lies between two blocks of one formula and differs from them. */
interface Gap {
  readonly before: FormulaBlock;
  readonly after: FormulaBlock;
  readonly blocks: readonly FormulaBlock[];
  readonly cells: readonly CellApart[];
}

/** The widest gap taken for an exception; wider gaps, or wide ones next to short blocks, separate two similar tables. */
const widest = 5;

/** The gaps in columns and rows of one formula: cells a reviewer would take for more of the same. */
function findGaps(book: Book, blocks: readonly FormulaBlock[]): Gap[] {
  return [true, false].flatMap((across) => {
    const lines = new Map<string, FormulaBlock[]>();
    for (const block of blocks) {
      const { top, bottom, left, right } = block.area;
      const line = [block.key, ...(across ? [top, bottom] : [left, right])].join(" ");
      lines.set(line, [...(lines.get(line) ?? []), block]);
    }
    return [...lines.values()].flatMap((line) => findGapsAlong(book, blocks, line, across));
  });
}

function findGapsAlong(
  book: Book,
  blocks: readonly FormulaBlock[],
  line: readonly FormulaBlock[],
  across: boolean,
): Gap[] {
  const start = ({ area }: FormulaBlock): number => (across ? area.left : area.top);
  const measureBlock = ({ area }: FormulaBlock): number => (across ? columnsOf(area) : rowsOf(area));
  const sorted = [...line].sort((a, b) => start(a) - start(b));
  return sorted.slice(1).flatMap((after, place) => {
    const before = sorted[place]!;
    const width = start(after) - start(before) - measureBlock(before);
    if (width < 1 || width > widest || measureBlock(before) + measureBlock(after) < 3 * width) return [];
    const area = across
      ? { ...before.area, left: before.area.right + 1, right: after.area.left - 1 }
      : { ...before.area, top: before.area.bottom + 1, bottom: after.area.top - 1 };
    const inGap = blocks.filter((block) => block.sheet === before.sheet && isWithin(block.area, area));
    const cells = findCellsApart(book, before.sheet, area, inGap, width === 1);
    return inGap.length + cells.length > 0 ? [{ before, after, blocks: inGap, cells }] : [];
  });
}

/** A single line of blanks or words among formulas counts too; several separate two tables. */
function findCellsApart(
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
      const cell = cells.get(buildCellKey(row, column));
      const kind = cell?.formula ? "live formula" : (cell?.value ?? null) === null ? "blank" : "typed";
      if (!withWords && (kind === "blank" || (kind === "typed" && typeof cell?.value === "string"))) continue;
      found.push({ sheet, row, column, kind, cell });
    }
  return found;
}

/** Copies of one frozen formula over an area; each may fill several cells, all the same number. */
interface FormulaBlock {
  readonly sheet: number;
  readonly area: Area;
  readonly kind: FrozenKind;
  readonly count: number;
  readonly first: FrozenCell;
  /** Shared by blocks of one formula in several places of a sheet. */
  readonly key: string;
}

/** The frozen formulas as blocks: down the columns first, then equal columns merged. */
function groupIntoBlocks(frozen: readonly FrozenCell[]): FormulaBlock[] {
  const groups = new Map<string, FormulaBlock[]>();
  for (const cell of frozen) {
    const block = createBlock(cell);
    const group = groups.get(block.key);
    if (group) group.push(block);
    else groups.set(block.key, [block]);
  }
  return [...groups.values()].flatMap((group) => joinBlocks(joinBlocks(group, isBelow), isBeside));
}

function createBlock(first: FrozenCell): FormulaBlock {
  const { sheet, formula, area } = first;
  const kind = formula.dynamic ? "spilling" : formula.array ? "in braces" : "one cell";
  const relative = buildFormulaPattern(formula, first);
  return { sheet, area, kind, count: 1, first, key: [sheet, kind, rowsOf(area), columnsOf(area), relative].join(" ") };
}

/** Adjacent blocks become one if copying the first formula gives exactly the next. */
function joinBlocks(blocks: readonly FormulaBlock[], follows: (one: Area, next: Area) => boolean): FormulaBlock[] {
  const across = follows === isBeside;
  const order = (a: Area, b: Area): number =>
    across ? a.top - b.top || a.left - b.left : a.left - b.left || a.top - b.top;
  const result: FormulaBlock[] = [];
  for (const next of [...blocks].sort((a, b) => order(a.area, b.area))) {
    const last = result.at(-1);
    if (last && follows(last.area, next.area) && translatesTo(last.first, next.first)) {
      const { bottom, right } = next.area;
      result[result.length - 1] = { ...last, area: { ...last.area, bottom, right }, count: last.count + next.count };
    } else result.push(next);
  }
  return result;
}

const isBelow = (one: Area, next: Area): boolean =>
  next.left === one.left && next.right === one.right && next.top === one.bottom + 1;
const isBeside = (one: Area, next: Area): boolean =>
  next.top === one.top && next.bottom === one.bottom && next.left === one.right + 1;

const sources = new WeakMap<FrozenCell, SharedFormula>();

function translatesTo(first: FrozenCell, other: FrozenCell): boolean {
  let source = sources.get(first);
  if (!source) {
    source = new SharedFormula(toStoredForm(toTypedForm(first.formula.text)), first.row, first.column);
    sources.set(first, source);
  }
  return [first, other].every(
    ({ row, column, formula }) => toTypedForm(source.translateTo(row, column)) === toTypedForm(formula.text),
  );
}

/** The labels of a book's cells, as used in a trace. */
function readLabels(book: Book): Labels {
  return new Labels(book, (sheet, row, column) => {
    const cell = book.sheets[sheet]?.cells.get(buildCellKey(row, column));
    return { value: cell?.value ?? null, typed: !cell?.formula };
  });
}

const mostWords = 4;

/** The contents of an area, in brief: "0.41 to 1.9" for numbers, "pass 431, fail 69" for texts. */
function summarizeValues({ cells }: Sheet, { top, left, bottom, right }: Area): string {
  let [least, most] = [Infinity, -Infinity];
  const words = new Map<string, number>();
  for (let row = top; row <= bottom; row += 1)
    for (let column = left; column <= right; column += 1) {
      const value = cells.get(buildCellKey(row, column))?.value ?? null;
      if (typeof value === "number") [least, most] = [Math.min(least, value), Math.max(most, value)];
      else words.set(formatWord(value), (words.get(formatWord(value)) ?? 0) + 1);
    }
  const numbers =
    least > most ? [] : [least === most ? shortenNumber(least) : `${shortenNumber(least)} to ${shortenNumber(most)}`];
  const counts = [...words].sort(([, a], [, b]) => b - a).map(([word, count]) => `${word} ${count}`);
  const others = counts.length - mostWords;
  return [...numbers, ...counts.slice(0, mostWords), ...(others > 0 ? [`${others} other texts`] : [])].join(", ");
}

function formatWord(value: CellValue): string {
  if (value instanceof ErrorValue) return value.code;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return (value ?? "") === "" ? "empty" : `“${String(value)}”`;
}

const shortenNumber = (value: number): string => String(Number(value.toPrecision(6)));
