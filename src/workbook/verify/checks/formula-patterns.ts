import type { Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { CellValue } from "../../model";
import type { Finding } from "../finding";
import { stepAlong, type Line, findNeighbours } from "../../book/like-formulas";
import type { Check, Review } from "../review";
import { showFormula } from "../../formatting";

/** Formulas that read different relative cells from their neighbours: the mark of cut and paste. */
export const checkFormulaPatterns: Check = (review) => {
  const findings: Finding[] = [];
  for (const place of review.view.listFormulaPlaces()) {
    const like =
      findOddOneOut(review, place, "column") ?? findOddOneOut(review, place, "row") ?? findOddEnd(review, place);
    if (like) findings.push(reportOddFormula(review, place, like));
  }
  return findings;
};

/** A neighbour that shows what the formula should be: those on both sides are copies of one formula, and this is not. */
function findOddOneOut({ view }: Review, place: Place, line: Line): Place | undefined {
  if (view.findCell(place)?.formula?.array) return undefined;
  const [before, after] = findNeighbours(view, place, line);
  const [last, next] = [before[0], after[0]];
  if (!last || !next) return undefined;
  const pattern = view.findPattern(last);
  if (pattern !== view.findPattern(next) || pattern === view.findPattern(place)) return undefined;
  if (
    blankShape(pattern ?? "") !== blankShape(view.findPattern(place) ?? "") &&
    readsOtherKinds(view, place, last, line)
  )
    return undefined;
  // One copy on either side may be chance, as in a table of alternating rows; a third is not.
  return [before[1], after[1]].some((further) => further && view.findPattern(further) === pattern) ? last : undefined;
}

/** Whether the formulas read different kinds of values in their own rows: a row of words in a table of numbers has a formula to suit. */
function readsOtherKinds(view: Inspector, place: Place, other: Place, line: Line): boolean {
  const listValues = (at: Place): CellValue[] =>
    view
      .listPrecedents(at)
      .filter((area) => area.sheet === at.sheet && (line === "row" || (area.top === at.row && area.bottom === at.row)))
      .flatMap((area) => view.listCells(area).map((cell) => view.readValue(cell)));
  const [own, theirs] = [listValues(place), listValues(other)];
  // Cells that are not filled yet will hold values of some kind.
  if ([...own, ...theirs].every((value) => value === null || value === "")) return true;
  const describeKinds = (values: readonly CellValue[]): string => values.map((value) => typeof value).join(" ");
  return describeKinds(own) !== describeKinds(theirs);
}

/** At the end of a column of copies: the same formula on different cells. */
function findOddEnd({ view }: Review, place: Place): Place | undefined {
  if (view.findCell(place)?.formula?.array) return undefined;
  const pattern = view.findPattern(place) ?? "";
  for (const [inside, outside] of [
    [1, -1],
    [-1, 1],
  ] as const) {
    if (view.findCell(stepAlong(place, "column", outside))?.formula) continue;
    const next = stepAlong(place, "column", inside);
    const run = [1, 2, 3].map((step) => stepAlong(place, "column", step * inside));
    const copies = new Set(
      run.map((near) => (view.findCell(near)?.formula?.array ? undefined : view.findPattern(near))),
    );
    const [copy] = copies;
    if (copies.size !== 1 || copy === undefined || copy === pattern) continue;
    if (blankShape(copy) === blankShape(pattern) && blankShape(pattern) !== pattern) return next;
  }
  return undefined;
}

const blankShape = (pattern: string): string => pattern.replace(/\{[^}]*\}/g, "{}");

function reportOddFormula({ view, isInChain }: Review, place: Place, like: Place): Finding {
  const [own, theirs] = [view.findPattern(place) ?? "", view.findPattern(like) ?? ""];
  const isMoved = blankShape(own) === blankShape(theirs);
  const showFormulaAt = (at: Place): string => showFormula(view.findCell(at)?.formula?.text ?? "");
  return {
    kind: "formula breaks the pattern",
    severity: isMoved && isInChain(place) ? "error" : "warning",
    place: view.formatAddress(place),
    what: `${showFormulaAt(place)} ${isMoved ? "reads different cells from its neighbours" : "is a different formula from its neighbours"}: ${view.formatAddress(like)} has ${showFormulaAt(like)}.`,
    why: "Cutting and pasting a cell moves the references to it, so the formula then uses another reading's figures.",
    todo: "Copy the neighbour's formula into it, unless the difference is intended.",
  };
}
