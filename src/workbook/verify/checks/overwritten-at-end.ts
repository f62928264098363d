import { isSingleCell, type Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import { findNeighbours, stepAlong } from "../../book/like-formulas";
import { formatCellValue, formatFigure, showFormula } from "../../formatting";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";

/** That many copies of a formula make a column of computed figures. */
const leastCopies = 3;
/** As a share of the computed figure: below it, the typed one is the same, rounded. */
const rounding = 0.005;
/** A typed figure further from the computed one than this ratio is another quantity. */
const mostRatio = 4;

/** Figures typed at the end of a column of computed ones, or at its foot in place of the sum, where the formula would give another figure. */
export const findTypedAtEnd: Check = (review) =>
  review.view.book.sheets.flatMap(({ cells }, sheet) =>
    [...cells.values()].flatMap(({ row, column }): Finding[] => {
      const place = { sheet, row, column };
      const value = review.view.isTyped(place) ? review.view.readNumber(place) : undefined;
      const should = value === undefined ? undefined : (findCopy(review, place) ?? findSum(review, place));
      if (value === undefined || !should || Math.abs(value - should.value) <= rounding * Math.abs(should.value))
        return [];
      const ratio = value / should.value;
      return ratio < mostRatio && ratio > 1 / mostRatio ? [report(review, place, should)] : [];
    }),
  );

interface Computed {
  readonly value: number;
  /** A cell with the formula. */
  readonly like: Place;
}

/** What the formula of the cells next to it in the column gives from the figures in the cell's own row. */
function findCopy({ view, state }: Review, place: Place): Computed | undefined {
  const [before, after] = findNeighbours(view, place, "column");
  const run = before.length === 0 ? after : after.length === 0 ? before : [];
  const [like] = run;
  if (!like || run.length < leastCopies || new Set(run.map((near) => view.findPattern(near))).size > 1)
    return undefined;
  const style = (at: Place) => state.sheets[at.sheet]?.styleOf(at.row, at.column);
  if (style(place) !== style(like)) return undefined;
  const parsed = view.parseFormulaAt(like);
  if (!parsed) return undefined;
  // A running total, or a step from the row before, begins with a figure of its own.
  const read = parsed.precedents.flatMap((node) => view.resolveNode(node, place));
  const own = read.filter((area) => isSingleCell(area) && area.sheet === place.sheet && area.top === place.row);
  const isOfRow = own.length > 0 && own.every((area) => isFigure(view, { ...place, column: area.left }));
  const isOfOtherRow = read.some(
    (area) => isSingleCell(area) && area.sheet === place.sheet && Math.abs(area.top - place.row) === 1,
  );
  if (!isOfRow || isOfOtherRow) return undefined;
  const [value] = view.evaluateNode(parsed.root, place) ?? [];
  return typeof value === "number" ? { value, like } : undefined;
}

const isFigure = (view: Inspector, place: Place): boolean =>
  !["", null].includes(view.readValue(place) as string | null);

const sumWords = /\b(sum|total|summe|gesamt|somme|suma|totale|totaal)\b/i;
/** How far a row may be searched for the sum of another column. */
const beside = [-4, -3, -2, -1, 1, 2, 3, 4];

/** The sum of the computed figures above, where the row is one of sums. */
function findSum({ view }: Review, place: Place): Computed | undefined {
  const above: Place[] = [];
  for (let up = 1; view.findCell(stepAlong(place, "column", -up))?.formula; up++)
    above.push(stepAlong(place, "column", -up));
  const figures = above.filter((cell) => view.readNumber(cell) !== undefined);
  const [first, second] = above;
  if (!first || !second || figures.length < leastCopies || view.findPattern(first) !== view.findPattern(second))
    return undefined;
  const like = beside.map((step) => stepAlong(place, "row", step)).find((cell) => sumsItsColumn(view, cell));
  if (!like && !sumWords.test(view.labels.readWordsBefore(place))) return undefined;
  const value = figures.reduce((sum, cell) => sum + (view.readNumber(cell) ?? 0), 0);
  return { value, like: like ?? first };
}

/** Whether a formula adds up the column that ends above it. */
function sumsItsColumn(view: Inspector, place: Place): boolean {
  const parsed = view.parseFormulaAt(place);
  return (
    parsed?.functions.has("SUM") === true &&
    view
      .listPrecedents(place)
      .some(({ left, right, bottom }) => left === place.column && right === left && bottom === place.row - 1)
  );
}

function report({ view, isInChain }: Review, place: Place, { value, like }: Computed): Finding {
  return {
    kind: "formula overwritten",
    severity: isInChain(place) ? "error" : "warning",
    place: view.formatAddress(place),
    what: `${formatCellValue(view.readValue(place))} is typed in at the end of computed figures; computed as in ${view.formatAddress(like)} (${showFormula(view.findCell(like)?.formula?.text ?? "")}) it would be ${formatFigure(value, 5)}.`,
    why: isInChain(place)
      ? "The verdict depends on this cell, which no longer follows the figures beside it."
      : "The cell no longer follows the figures beside it.",
    todo: "Copy the neighbouring formula into it and see whether the result changes.",
  };
}
