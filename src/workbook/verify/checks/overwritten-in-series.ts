import { listPlaces, type Place, type SheetArea } from "../../book/area";
import { formatCellValue, formatFigure, showFormula } from "../../formatting";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";

/** That many copies of a formula make a series of computed figures. */
const leastCopies = 3;

/** Readings typed among computed ones, at the ends of a series too, where the series' formula gives another figure. */
export const findTypedInSeries: Check = (review) => {
  const areas = review.runs.flatMap(({ pressures, flows, before, after }) => [pressures, flows, before, after]);
  const seen = new Set<string>();
  return areas.flatMap((area) => {
    if (!area || seen.has(review.view.formatArea(area))) return [];
    seen.add(review.view.formatArea(area));
    return splitSeries(area).flatMap((series) => reviewSeries(review, series));
  });
};

/** The columns of an area, or its only row. */
function splitSeries(area: SheetArea): Place[][] {
  const { top, bottom, left, right } = area;
  if (top === bottom) return [[...listPlaces(area)]];
  return Array.from({ length: right - left + 1 }, (_, index) => [
    ...listPlaces({ ...area, left: left + index, right: left + index }),
  ]);
}

function reviewSeries({ view, isInChain }: Review, series: readonly Place[]): Finding[] {
  const patterns = new Map<string, Place[]>();
  for (const place of series) {
    const pattern = view.findPattern(place);
    if (pattern !== undefined) patterns.set(pattern, [...(patterns.get(pattern) ?? []), place]);
  }
  const [copies = []] = [...patterns.values()].sort((one, other) => other.length - one.length);
  const typed = series.filter((place) => view.isTyped(place) && view.readNumber(place) !== undefined);
  const [model] = copies;
  if (!model || copies.length < leastCopies || typed.length >= copies.length) return [];
  const root = view.parseFormulaAt(model)?.root;
  return typed.flatMap((place): Finding[] => {
    const value = view.readNumber(place) ?? 0;
    const [given] = root ? (view.evaluateNode(root, place) ?? []) : [];
    // Where the formula has nothing to work with, the figure was read elsewhere.
    if (typeof given !== "number" || Math.abs(given - value) <= 0.005 * Math.abs(given)) return [];
    return [
      {
        kind: "formula overwritten",
        severity: isInChain(place) ? "error" : "warning",
        place: view.formatAddress(place),
        what: `${formatCellValue(value)} is typed in where the series has a formula: as in ${view.formatAddress(model)} (${showFormula(view.findCell(model)?.formula?.text ?? "")}) it would be ${formatFigure(given, 5)}.`,
        why: "The reading no longer follows the figures beside it.",
        todo: "Copy the neighbouring formula into it and see whether the result changes.",
      },
    ];
  });
}
