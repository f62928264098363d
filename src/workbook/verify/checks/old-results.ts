import { compareWithStored, type Difference } from "../../formula/evaluation";
import { ErrorValue } from "../../model";
import { areaOf, placeKey, type SheetArea, type Place } from "../../book/area";

import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { findStatedVersions } from "../stated-facts";
import { formatCount, formatCellValue, showFormula } from "../../formatting";

const mostListed = 25;

/**
 * Stored results that differ from what the formulas give, reported where they originate: at cells whose inputs agree with what they were
 * computed from; cells that only inherit a difference are counted. The method version, and cells that repeat it, are for another check.
 */
export const findOldResults: Check = (review) => {
  const { view, book, withZeros } = review;
  const versions = findStatedVersions(review);
  const isVersion = ({ stored, computed }: Difference) =>
    versions.some((one) => one.stored === stored && one.computed === computed);
  const withBlanks = compareWithStored(book, view.evaluation).filter(
    (difference) => !difference.isUnbound && !isErrorAsText(difference) && !isVersion(difference),
  );
  // A file saved by a version of Excel that passes blanks as 0 is not an old result: the check of blank cells reports it.
  const alsoWithZeros = new Set(compareWithStored(book, withZeros).map(placeKey));
  const differences = withBlanks.filter((difference) => alsoWithZeros.has(placeKey(difference)));
  const differing = new CellsByColumn(differences);
  const first = new Map<number, { readonly place: Place; readonly cells: Difference[] }>();
  let following = 0;
  for (const difference of differences) {
    const source = view.findOwner(difference) ?? difference;
    if (follows(review, source, differing)) {
      following++;
      continue;
    }
    const group = first.get(placeKey(source)) ?? { place: source, cells: [] };
    group.cells.push(difference);
    first.set(placeKey(source), group);
  }
  const groups = [...first.values()];
  const shownGroups = groups.slice(0, mostListed).map((group) => reportOldResult(review, group, following));
  const rest = groups.length - shownGroups.length;
  return rest > 0 ? [...shownGroups, reportRest(rest)] : shownGroups;
};

/** Some programs store an error as its text; the result is the same. */
function isErrorAsText({ stored, computed }: Difference): boolean {
  return computed instanceof ErrorValue && stored === computed.code;
}

function follows({ view }: Review, source: Place, differing: CellsByColumn): boolean {
  const own = view.findCell(source)?.formula?.array;
  const filled = own ? { sheet: source.sheet, ...own } : areaOf(source);
  return view.listPrecedents(source).some((area) => differing.hasAny(area, filled));
}

/** Rows of cells, ascending, by sheet and column: shows whether an area contains any without visiting each of its cells. */
class CellsByColumn {
  private readonly sheets = new Map<number, Map<number, number[]>>();

  constructor(places: readonly Place[]) {
    for (const { sheet, row, column } of places) {
      const columns = this.sheets.get(sheet) ?? new Map<number, number[]>();
      this.sheets.set(sheet, columns);
      const rows = columns.get(column);
      if (rows === undefined) columns.set(column, [row]);
      else rows.push(row);
    }
    for (const columns of this.sheets.values()) for (const rows of columns.values()) rows.sort((a, b) => a - b);
  }

  /** Whether any cell of an area is here, those of another area left out. */
  hasAny(area: SheetArea, except: SheetArea): boolean {
    for (const [column, rows] of this.sheets.get(area.sheet) ?? []) {
      if (column < area.left || column > area.right) continue;
      let at = findFirstAtLeast(rows, area.top);
      const isCrossed = except.sheet === area.sheet && column >= except.left && column <= except.right;
      if (isCrossed && rows[at]! >= except.top && rows[at]! <= except.bottom)
        at = findFirstAtLeast(rows, except.bottom + 1);
      if (rows[at]! <= area.bottom) return true;
    }
    return false;
  }
}

/** Index of the first number not below a bound, in an ascending list. */
function findFirstAtLeast(numbers: readonly number[], bound: number): number {
  let [low, high] = [0, numbers.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (numbers[middle]! < bound) low = middle + 1;
    else high = middle;
  }
  return low;
}

function reportOldResult(
  { view }: Review,
  { place, cells }: { place: Place; cells: Difference[] },
  following: number,
): Finding {
  const [{ address, stored, computed } = { address: "", stored: null, computed: null }] = cells;
  // Two figures that agree in the usual digits need more of them.
  const digits = formatCellValue(stored) === formatCellValue(computed) ? 15 : 7;
  const more = cells.length > 1 ? ` (${formatCount(cells.length, "cell")} of this array differ)` : "";
  const after =
    following > 0
      ? ` ${formatCount(following, "further cell")} in the workbook ${following === 1 ? "inherits" : "inherit"} such differences.`
      : "";
  return {
    kind: "old result",
    severity: "error",
    place: address,
    what: `The file says ${formatCellValue(stored, digits)}; ${showFormula(view.findCell(place)?.formula?.text ?? "")} gives ${formatCellValue(computed, digits)} now${more}.${after}`,
    why: "A result older than its inputs, or entered by hand, is not the result of these readings.",
    todo: "Recalculate it, and ask which input was changed after the result was saved.",
  };
}

function reportRest(rest: number): Finding {
  return {
    kind: "old result",
    severity: "error",
    place: "the workbook",
    what: `${formatCount(rest, "further formula")} ${rest === 1 ? "holds a result that differs from what it gives" : "hold results that differ from what they give"} now.`,
    why: "Results older than their inputs are not the results of these readings.",
    todo: "Recalculate the workbook and compare the two.",
  };
}
