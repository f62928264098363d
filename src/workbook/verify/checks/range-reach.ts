import {
  areaKey,
  columnsOf,
  isInside,
  isSingleCell,
  isOverlapping,
  type Place,
  placeKey,
  rowsOf,
  type SheetArea,
} from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Node } from "../../formula/parse/syntax";
import type { Area } from "../../model";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatCount, formatCellValue, showFormula } from "../../formatting";

const leastCells = 4;

/** Ranges that end before their block of figures does, or start after it. */
export const checkRangeReach: Check = (review) => {
  const { view } = review;
  const seen = new Map<string, { readonly area: SheetArea; readonly users: Place[] }>();
  for (const place of view.listFormulaPlaces()) {
    for (const area of listBlocks(view, place)) {
      const key = areaKey(area);
      const entry = seen.get(key);
      if (entry) entry.users.push(place);
      else seen.set(key, { area, users: [place] });
    }
  }
  const starts = new Set([...seen.values()].map(({ area }) => buildCornerKey(area)));
  return [...seen.values()].flatMap(({ area, users }) => {
    const missed = findMissedBeside(review, area, users);
    if (!missed || starts.has(buildNextKey(area, missed)) || startsAnother(review, area, users, missed)) return [];
    // A formula that reads the cell, or its row, through another reference omits nothing.
    const without = users.filter((user) => !readsAlso(view, user, missed));
    return without.length > 0 ? [reportMissedCell(review, area, without, missed)] : [];
  });
};

/** The ranges that a formula reads, as far as they are blocks. */
function listBlocks(view: Inspector, place: Place): SheetArea[] {
  const nodes = view.parseFormulaAt(place)?.precedents ?? [];
  return nodes.flatMap((node) => (mayBeBlock(node) ? view.resolveNode(node, place).filter(isBlock) : []));
}

/** Ranges with one fixed and one relative end grow from row to row; those of other references show their size when resolved. */
function mayBeBlock(node: Node): boolean {
  if (node.type !== "area") return true;
  const { top, left, bottom, right } = node;
  if (top.fixed !== bottom.fixed || left.fixed !== right.fixed) return false;
  return isBlock({ top: top.index, left: left.index, bottom: bottom.index, right: right.index });
}

/** A column of figures, or several, or a single row of them. */
const isBlock = (area: Area): boolean =>
  rowsOf(area) >= leastCells || (rowsOf(area) === 1 && columnsOf(area) >= leastCells);

const buildCornerKey = ({ sheet, top, left, bottom, right }: SheetArea): string =>
  `${sheet} ${top} ${left} ${bottom - top} ${right - left}`;

/** The range of the same size starting at the missed cell: if one exists, the blocks are adjacent. */
function buildNextKey({ sheet, top, left, bottom, right }: SheetArea, missed: Place): string {
  const isBelow = missed.row > bottom || missed.row < top;
  const [height, width] = [bottom - top + 1, right - left + 1];
  const start = isBelow
    ? { top: missed.row > bottom ? missed.row : missed.row - height + 1, left }
    : { top, left: missed.column > right ? missed.column : missed.column - width + 1 };
  return buildCornerKey({ sheet, ...start, bottom: start.top + height - 1, right: start.left + width - 1 });
}

/** A formula that reads the range uses the missed cell for something else, such as the baseline below the readings; or a whole other block starts there. */
function startsAnother({ view }: Review, area: SheetArea, users: readonly Place[], missed: Place): boolean {
  const isApart = (other: SheetArea): boolean =>
    other.sheet === missed.sheet && isInside(other, missed.row, missed.column) && !isOverlapping(other, area);
  return users.some((user) => view.listPrecedents(user).some(isApart));
}

function readsAlso(view: Inspector, user: Place, { sheet, row, column }: Place): boolean {
  return view.listPrecedents(user).some((area) => {
    const inRow = area.sheet === sheet && row >= area.top && row <= area.bottom;
    const isOneCell = isSingleCell(area);
    return inRow && (isOneCell || (column >= area.left && column <= area.right));
  });
}

/** The first cell adjoining a range that looks like one more of its figures; the range's own users do not count. */
function findMissedBeside(review: Review, area: SheetArea, users: readonly Place[]): Place | undefined {
  const { sheet, top, left, bottom, right } = area;
  const width = columnsOf(area);
  const own = new Set(users.map(placeKey));
  const pairs: (readonly [inside: Place, outside: Place])[][] = [];
  const listColumn = (row: number, beyond: number) =>
    Array.from(
      { length: width },
      (_, step) =>
        [
          { sheet, row, column: left + step },
          { sheet, row: beyond, column: left + step },
        ] as const,
    );
  const listRow = (at: number, beyond: number) => [
    [
      { sheet, row: top, column: at },
      { sheet, row: top, column: beyond },
    ] as const,
  ];
  if (top < bottom) pairs.push(listColumn(bottom, bottom + 1), ...(top > 0 ? [listColumn(top, top - 1)] : []));
  else pairs.push(listRow(right, right + 1), ...(left > 0 ? [listRow(left, left - 1)] : []));
  for (const edge of pairs) {
    if (edge.every(([inside, outside]) => !own.has(placeKey(outside)) && isOneMore(review, inside, outside)))
      return edge[0]?.[1];
  }
  return undefined;
}

/** Typed and formatted like its neighbour, computed by a copy of its formula, or filled by the same array. */
function isOneMore({ view, state }: Review, inside: Place, outside: Place): boolean {
  if (view.readNumber(inside) === undefined || view.readNumber(outside) === undefined) return false;
  if (view.isTyped(inside) && view.isTyped(outside)) {
    const style = (at: Place) => state.sheets[at.sheet]?.styleOf(at.row, at.column);
    return style(inside) === style(outside);
  }
  const [one, other] = [findSource(view, inside), findSource(view, outside)];
  if (view.findOwner(inside) ?? view.findOwner(outside)) return one !== undefined && one === other;
  return view.findPattern(inside) !== undefined && view.findPattern(inside) === view.findPattern(outside);
}

function findSource(view: Inspector, place: Place): number | undefined {
  const owner = view.findOwner(place) ?? (view.findCell(place)?.formula?.array ? place : undefined);
  return owner && placeKey(owner);
}

function reportMissedCell(
  { view, isInChain }: Review,
  area: SheetArea,
  users: readonly Place[],
  missed: Place,
): Finding {
  const user = users.find(isInChain) ?? users[0];
  const text = user ? (view.findCell(user)?.formula?.text ?? "") : "";
  const more = users.length > 1 ? ` and ${formatCount(users.length - 1, "further formula")}` : "";
  return {
    kind: "range misses readings",
    severity: user && isInChain(user) ? "error" : "warning",
    place: user ? view.formatAddress(user) : view.formatArea(area),
    what: `${showFormula(text)}${more} reads ${view.formatArea(area)}, but the block continues: ${view.formatAddress(missed)} holds ${formatCellValue(view.readValue(missed))}.`,
    why: "A reading outside the range is silently left out.",
    todo: "Extend the range to the whole block, or mark the reading as excluded and give the reason.",
  };
}
