import { isInside, isSingleCell, type Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import { stepAlong, type Line, findNeighbours, listTwins } from "../../book/like-formulas";
import type { Check, Review } from "../review";
import { formatCellValue, showFormula } from "../../formatting";

/** Values where the column, the row or the sheet of the same layout has formulas. */
export const findTypedOver: Check = (review) => {
  const findings: Finding[] = [];
  for (const [sheet, { cells }] of review.book.sheets.entries()) {
    const twins = listTwins(review.twins, sheet);
    for (const { row, column } of cells.values()) {
      const place = { sheet, row, column };
      if (!review.view.isTyped(place)) continue;
      const evidence = findEvidence(review, place, twins);
      if (evidence) findings.push(reportTypedOver(review, place, evidence));
    }
  }
  return findings;
};

interface Evidence {
  readonly where: string;
  /** What the formula would be like. */
  readonly text: string;
}

/** @param twins The sheets of the same layout. */
function findEvidence(review: Review, place: Place, twins: readonly number[]): Evidence | undefined {
  const { view } = review;
  const alike = twins.map((sheet) => ({ ...place, sheet }));
  for (const twin of alike) {
    const text = view.findCell(twin)?.formula?.text;
    // What one sheet fetches from the other is legitimately typed there.
    const isFetched = view
      .listPrecedents(twin)
      .some((area) => area.sheet === place.sheet && isSingleCell(area) && isInside(area, place.row, place.column));
    if (text !== undefined && !isFetched)
      return { where: `the sheet of the same layout has a formula in ${view.formatAddress(twin)}`, text };
  }
  if (alike.some((twin) => view.isTyped(twin))) return undefined;
  for (const line of ["column", "row"] as const) {
    const found = findEvidenceInLine(review, place, line);
    if (found) return found;
  }
  return undefined;
}

/** That many formulas that are alike but for a whole number in each. */
const leastCounted = 4;

/** A pattern without the whole numbers in it that a row may count with; those of its references stay. */
const blankCounters = (pattern: string): string =>
  pattern.replace(/\{[^}]*\}|"[^"]*"|(?<![\p{L}\p{N}_.])\d+(?![\p{L}\p{N}_.])/gu, (part) =>
    /^\d/.test(part) ? "#" : part,
  );

/** Between two copies of one formula; or among formulas and formatted like them. */
function findEvidenceInLine({ view, state }: Review, place: Place, line: Line): Evidence | undefined {
  const [before, after] = findNeighbours(view, place, line);
  const [last, next] = [before[0], after[0]];
  if (!last || !next) return undefined;
  // A word among linked figures, such as the flow basis in a block of settings, never was a formula for a figure.
  if (typeof view.readValue(place) === "string" && typeof view.readValue(last) === "number") return undefined;
  const shape = (near: Place): string => blankCounters(view.findPattern(near) ?? "");
  const copies = [...before, ...after].filter((near) => shape(near) === shape(last)).length;
  if (copies < 3 && isInLineOfInputs(view, place, line)) return undefined;
  const text = view.findCell(last)?.formula?.text ?? "";
  const where = `its ${line} has formulas on both sides, ${view.formatAddress(last)} and ${view.formatAddress(next)}`;
  if (view.findPattern(last) === view.findPattern(next)) return { where, text };
  // Copies with a number of their own, such as INDEX(volumes,4) and INDEX(volumes,6), are copies too.
  if (shape(last) === shape(next) && copies >= leastCounted) return { where, text };
  if (line === "row" || before.length < 3 || after.length < 3) return undefined;
  const style = (at: Place) => state.sheets[at.sheet]?.styleOf(at.row, at.column);
  const isLikeThem = style(place) === style(last) && style(place) === style(next);
  const isOfTheirKind =
    typeof view.readValue(place) === typeof view.readValue(last) &&
    typeof view.readValue(place) === typeof view.readValue(next);
  return isLikeThem && isOfTheirKind ? { where, text } : undefined;
}

/** Typed figures on both sides across the line: a column or row of inputs among computed ones. */
function isInLineOfInputs(view: Inspector, place: Place, line: Line): boolean {
  const across = line === "column" ? "row" : "column";
  const [one, other] = [stepAlong(place, across, -1), stepAlong(place, across, 1)];
  return [one, other].some(
    (near) => view.isTyped(near) && typeof view.readValue(near) === typeof view.readValue(place),
  );
}

function reportTypedOver({ view, isInChain }: Review, place: Place, { where, text }: Evidence): Finding {
  return {
    kind: "formula overwritten",
    severity: isInChain(place) ? "error" : "warning",
    place: view.formatAddress(place),
    what: `${formatCellValue(view.findCell(place)?.value)} is typed in where a formula should be: ${where} (${showFormula(text)}).`,
    why: isInChain(place)
      ? "The verdict depends on this cell, which no longer follows the readings."
      : "The cell no longer follows its inputs.",
    todo: "Copy the neighbouring formula into it and see whether the result changes.",
  };
}
