import type { SheetArea, Place } from "../../book/area";

import { listPairedArguments } from "../../book/add-in-calls";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatList, showFormula } from "../../formatting";

const leastCells = 3;

/** Calls that pair ranges starting in different rows, so that figures are matched with the wrong partners. */
export const checkRangeSteps: Check = (review) => {
  const findings: Finding[] = [];
  for (const place of review.view.listFormulaPlaces()) {
    for (const ranges of listPairedArguments(review.view, review.addIn, place)) {
      const [one, other] = findOutOfStep(ranges) ?? [];
      if (one && other) findings.push(reportOutOfStep(review, place, [one, other]));
    }
  }
  return findings;
};

function findOutOfStep(ranges: readonly SheetArea[]): readonly [SheetArea, SheetArea] | undefined {
  for (const [index, one] of ranges.entries()) {
    for (const other of ranges.slice(index + 1)) {
      if (one.sheet !== other.sheet) continue;
      const down =
        isShifted([one.top, one.bottom], [other.top, other.bottom]) &&
        one.left === one.right &&
        other.left === other.right;
      const across =
        isShifted([one.left, one.right], [other.left, other.right]) &&
        one.top === one.bottom &&
        other.top === other.bottom;
      if (down || across) return [one, other];
    }
  }
  return undefined;
}

/** Of equal length and overlapping, but not aligned. */
function isShifted([first, last]: readonly [number, number], [start, end]: readonly [number, number]): boolean {
  const length = last - first + 1;
  return length >= leastCells && end - start + 1 === length && first !== start && Math.abs(first - start) < length;
}

function reportOutOfStep({ view, isInChain }: Review, place: Place, areas: readonly SheetArea[]): Finding {
  return {
    kind: "ranges misaligned",
    severity: isInChain(place) ? "error" : "warning",
    place: view.formatAddress(place),
    what: `${showFormula(view.findCell(place)?.formula?.text ?? "")} pairs ${formatList(areas.map((area) => view.formatArea(area)))}, which start in different rows or columns.`,
    why: "Each pressure is then paired with the flow of another reading.",
    todo: "Make all ranges of the call start and end in the same rows.",
  };
}
