import type { Place } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import { along, type Line, neighbours } from "../like-formulas";
import type { Check, Review } from "../review";
import { showFormula } from "../../words";

/** Formulas that read other cells, relative to their own, than their neighbours do: the mark of cut and paste. */
export const formulaPatterns: Check = (review) => {
  const findings: Finding[] = [];
  for (const place of review.view.formulaPlaces()) {
    const like = oddOneOut(review, place, "column") ?? oddOneOut(review, place, "row") ?? oddEnd(review, place);
    if (like) findings.push(findingOf(review, place, like));
  }
  return findings;
};

/** A neighbour that shows how the formula should be: the formulas on both sides are copies of one, and this is none. */
function oddOneOut({ view }: Review, place: Place, line: Line): Place | undefined {
  if (view.cell(place)?.formula?.array) return undefined;
  const [before, after] = neighbours(view, place, line);
  const [last, next] = [before[0], after[0]];
  if (!last || !next) return undefined;
  const pattern = view.pattern(last);
  if (pattern !== view.pattern(next) || pattern === view.pattern(place)) return undefined;
  if (shape(pattern ?? "") !== shape(view.pattern(place) ?? "") && readsOtherKinds(view, place, last, line))
    return undefined;
  // One copy on either side could be chance, as in a table whose rows take turns; a third one is not.
  return [before[1], after[1]].some((further) => further && view.pattern(further) === pattern) ? last : undefined;
}

/** Whether the formulas read values of different kinds in their own rows: a row of words in a table of numbers has its own formula. */
function readsOtherKinds(view: Inspector, place: Place, other: Place, line: Line): boolean {
  const kinds = (at: Place): string =>
    view
      .precedents(at)
      .filter((area) => area.sheet === at.sheet && (line === "row" || (area.top === at.row && area.bottom === at.row)))
      .flatMap((area) => view.cellsIn(area).map((cell) => typeof view.value(cell)))
      .join(" ");
  return kinds(place) !== kinds(other);
}

/** At the end of a column of copies: the same formula, but of other cells. */
function oddEnd({ view }: Review, place: Place): Place | undefined {
  if (view.cell(place)?.formula?.array) return undefined;
  const pattern = view.pattern(place) ?? "";
  for (const [inside, outside] of [
    [1, -1],
    [-1, 1],
  ] as const) {
    if (view.cell(along(place, "column", outside))?.formula) continue;
    const next = along(place, "column", inside);
    const run = [1, 2, 3].map((step) => along(place, "column", step * inside));
    const copies = new Set(run.map((near) => (view.cell(near)?.formula?.array ? undefined : view.pattern(near))));
    const [copy] = copies;
    if (copies.size !== 1 || copy === undefined || copy === pattern) continue;
    if (shape(copy) === shape(pattern) && shape(pattern) !== pattern) return next;
  }
  return undefined;
}

const shape = (pattern: string): string => pattern.replace(/\{[^}]*\}/g, "{}");

function findingOf({ view, isInChain }: Review, place: Place, like: Place): Finding {
  const [own, theirs] = [view.pattern(place) ?? "", view.pattern(like) ?? ""];
  const isMoved = shape(own) === shape(theirs);
  const formula = (at: Place): string => showFormula(view.cell(at)?.formula?.text ?? "");
  return {
    kind: "formula out of pattern",
    severity: isMoved && isInChain(place) ? "wrong" : "doubtful",
    place: view.address(place),
    what: `${formula(place)} ${isMoved ? "reads other cells than its neighbours do" : "is another formula than its neighbours"}: ${view.address(like)} has ${formula(like)}.`,
    why: "Cutting and pasting a cell drags the references to it along, and the formula then computes with another reading's figures.",
    todo: "Copy the neighbour's formula over it, unless the difference is meant.",
  };
}
