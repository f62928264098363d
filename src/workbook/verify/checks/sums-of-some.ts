import { isSingleCell, type Place, type SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import { fillsSeveral, stepAlong } from "../../book/like-formulas";
import type { Node } from "../../formula/parse/syntax";
import { formatCellValue, formatCount, showFormula } from "../../formatting";
import { withoutBlanking } from "../blanking";
import type { Finding } from "../finding";
import type { Check } from "../review";

const longest = 200;

/** Sums on the way to a verdict that add cells of a column one by one, G8+G16, and leave out others that have the same formula and a figure. */
export const findSumsOfSome: Check = ({ view, chain, verdicts }) =>
  verdicts.length === 0
    ? []
    : [...chain.values()].flatMap((place): Finding[] => {
        const root = view.parseFormulaAt(place)?.root;
        const terms = root ? listTerms(view, withoutBlanking(root), place) : [];
        const [first] = terms;
        if (!first || terms.length < 2 || !terms.every((term) => isOneColumn(term, first))) return [];
        const added = new Set(terms.map(({ top }) => top));
        const missed = listSeries(view, first).filter(
          (cell) => !added.has(cell.row) && view.readNumber(cell) !== undefined && view.readNumber(cell) !== 0,
        );
        const [next] = missed;
        // The terms of a calculation that runs down a column are no series.
        if (
          !next ||
          terms.some(({ sheet, top, left }) => !isLike(view, { sheet, row: top, column: left }, cellOf(first)))
        )
          return [];
        return [
          {
            kind: "range misses readings",
            severity: "warning",
            place: view.formatAddress(place),
            what: `${showFormula(view.findCell(place)?.formula?.text ?? "")} adds ${formatCount(terms.length, "cell")} of a column one by one and leaves out ${formatCount(missed.length, "further figure")} of it: ${view.formatAddress(next)} holds ${formatCellValue(view.readValue(next))}.`,
            why: "What is left out of a sum does not count in the verdict, and nothing on the sheet says so.",
            todo: "Add up the whole column, or mark what does not count and give the reason.",
          },
        ];
      });

/** The single cells that a sum is written out of; none if it takes anything else. */
function listTerms(view: Inspector, node: Node, place: Place): SheetArea[] {
  const cells: SheetArea[] = [];
  const waiting: Node[] = [node];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.type === "operation" && next.operator === "+") waiting.push(next.right, next.left);
    else if (next.type === "call" && next.name === "SUM") {
      if (next.arguments.some((part) => part === null)) return [];
      waiting.push(...next.arguments.flatMap((part) => part ?? []));
    } else {
      const [area, ...others] = next.type === "area" ? view.resolveNode(next, place) : [];
      if (!area || others.length > 0 || !isSingleCell(area)) return [];
      cells.push(area);
    }
  }
  return cells;
}

const isOneColumn = (one: SheetArea, other: SheetArea): boolean => one.sheet === other.sheet && one.left === other.left;

const cellOf = ({ sheet, top, left }: SheetArea): Place => ({ sheet, row: top, column: left });

/** A formula's pattern without whole numbers, by which the rows of a table may count. */
const shapeOf = (view: Inspector, place: Place): string | undefined => {
  const formula = view.findCell(place)?.formula;
  if (!formula || fillsSeveral(formula)) return undefined;
  return view.findPattern(place)?.replace(/\{[^}]*\}|\d+/g, (part) => (part.startsWith("{") ? part : "#"));
};

const isLike = (view: Inspector, one: Place, other: Place): boolean =>
  shapeOf(view, one) !== undefined && shapeOf(view, one) === shapeOf(view, other);

/** The unbroken column of copies around a cell. */
function listSeries(view: Inspector, area: SheetArea): Place[] {
  const start = cellOf(area);
  const found: Place[] = [];
  for (const way of [-1, 1])
    for (let steps = way; Math.abs(steps) < longest; steps += way) {
      const cell = stepAlong(start, "column", steps);
      if (!isLike(view, cell, start)) break;
      found.push(cell);
    }
  return found;
}
