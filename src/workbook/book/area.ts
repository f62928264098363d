import { type Area, buildCellKey } from "../model";

/** Excel's last row and column, zero-based. */
export const lastRow = 1_048_575;

export const lastColumn = 16_383;

/** An area on one sheet of the book. */
export interface SheetArea extends Area {
  readonly sheet: number;
}

/** How many rows an area has. */
export const rowsOf = (area: Area): number => area.bottom - area.top + 1;

/** How many columns an area has. */
export const columnsOf = (area: Area): number => area.right - area.left + 1;

export const isInside = (area: Area, row: number, column: number): boolean =>
  row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;

/** How many cells an area has. */
export const sizeOf = (area: Area): number => rowsOf(area) * columnsOf(area);

/** Whether two areas of one sheet have cells in common. */
export const isOverlapping = (one: Area, other: Area): boolean =>
  one.top <= other.bottom && one.bottom >= other.top && one.left <= other.right && one.right >= other.left;

export const isWithin = (area: Area, whole: Area): boolean =>
  isInside(whole, area.top, area.left) && isInside(whole, area.bottom, area.right);

export const isSingleCell = (area: Area): boolean => area.top === area.bottom && area.left === area.right;

/** A cell of the book. */
export interface Place {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** One number for a cell of the whole book: for all but far cells a small integer, by which a Map finds several times faster than by a larger number. */
export const placeKey = ({ sheet, row, column }: Place): number =>
  row < 4096 && column < 256 && sheet < 512
    ? (sheet << 20) | (row << 8) | column
    : (sheet + 1) * 2 ** 34 + buildCellKey(row, column);

/** One text for an area of the whole book. */
export const areaKey = ({ sheet, top, left, bottom, right }: SheetArea): string =>
  `${sheet} ${top} ${left} ${bottom} ${right}`;

/** The area of one cell. */
export const areaOf = ({ sheet, row, column }: Place): SheetArea => ({
  sheet,
  top: row,
  bottom: row,
  left: column,
  right: column,
});

/** The part of an area within the used rows and columns; the rest is blank. */
export function clipArea<T extends Area>(area: T, bottom: number, right: number): T {
  return { ...area, bottom: Math.min(area.bottom, bottom), right: Math.min(area.right, right) };
}

/** Every place of an area, row by row. */
export function* listPlaces({ sheet, top, left, bottom, right }: SheetArea): Generator<Place> {
  for (let row = top; row <= bottom; row++)
    for (let column = left; column <= right; column++) yield { sheet, row, column };
}

/** Cells merged into rectangles, down first and then across. */
export function joinIntoRectangles(cells: readonly Place[]): SheetArea[] {
  return mergeAreas(cells.map(areaOf), "both");
}

/** Areas merged where they touch or overlap along a whole side, vertically, horizontally or both. */
export function mergeAreas(areas: readonly SheetArea[], way: "down" | "across" | "both"): SheetArea[] {
  const down = way === "across" ? areas : mergeSorted([...areas].sort(compareByColumns), joinBelow);
  return way === "down" ? [...down] : mergeSorted([...down].sort(compareByRows), joinBeside);
}

type Join = (a: SheetArea, b: SheetArea) => SheetArea | undefined;

const joinBelow: Join = (a, b) =>
  a.sheet === b.sheet && a.left === b.left && a.right === b.right && b.top <= a.bottom + 1
    ? { ...a, bottom: Math.max(a.bottom, b.bottom) }
    : undefined;

const joinBeside: Join = (a, b) =>
  a.sheet === b.sheet && a.top === b.top && a.bottom === b.bottom && b.left <= a.right + 1
    ? { ...a, right: Math.max(a.right, b.right) }
    : undefined;

const compareByColumns = (a: SheetArea, b: SheetArea): number =>
  a.sheet - b.sheet || a.left - b.left || a.right - b.right || a.top - b.top;

const compareByRows = (a: SheetArea, b: SheetArea): number =>
  a.sheet - b.sheet || a.top - b.top || a.bottom - b.bottom || a.left - b.left;

function mergeSorted(sorted: readonly SheetArea[], join: Join): SheetArea[] {
  const kept: SheetArea[] = [];
  for (const area of sorted) {
    const last = kept.at(-1);
    const both = last && join(last, area);
    if (both) kept[kept.length - 1] = both;
    else kept.push(area);
  }
  return kept;
}

/** Whether two areas, on their sheets, have cells in common. */
export const shareCells = (a: SheetArea, b: SheetArea): boolean => a.sheet === b.sheet && isOverlapping(a, b);

/** The smallest area containing the given cells of one sheet. */
export function findAreaAround(slots: readonly Place[]): SheetArea {
  const rows = slots.map(({ row }) => row);
  const columns = slots.map(({ column }) => column);
  const findLeast = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity);
  const findMost = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity);
  return {
    sheet: slots[0]?.sheet ?? 0,
    top: findLeast(rows),
    bottom: findMost(rows),
    left: findLeast(columns),
    right: findMost(columns),
  };
}
