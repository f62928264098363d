import type { Inspector } from "../../book/inspector";
import { areaOf, placeKey, type Place } from "../../book/area";
import type { Finding } from "../finding";
import type { Check } from "../review";
import { findSameUnitSources } from "../units";
import { formatFigure } from "../../formatting";
import { shorten } from "../../file/problem";

/** Sizes that a result is divided by, with the labels of computed ones. */
const sizes: readonly (readonly [setting: string, words: RegExp])[] = [
  ["volume", /volume/i],
  ["envelope area", /envelope area|area of the (building )?envelope/i],
  ["floor area", /floor area/i],
];
/** Sizes further apart than this do not belong to one building. */
const widest = 2;
/** Within this, a typed size is the computed one, rounded. */
const rounding = 0.005;
const mostCandidates = 20;

/** A size typed in although the workbook computes a similar one with a different value. */
export const findTypedSizes: Check = ({ view, runs }) => {
  const found = new Map<number, Finding>();
  for (const run of runs)
    for (const [label, words] of sizes) {
      const setting = run.settings.get(label)?.place;
      const value = setting && view.readNumber(setting);
      if (!setting || value === undefined || !(value > 0)) continue;
      const source = findSameUnitSources(view, setting).find((place) => view.readNumber(place) === value);
      if (!source || found.has(placeKey(source))) continue;
      const computed = findComputedLike(view, source, words, value);
      const [closest] = computed.sort((a, b) => a.difference - b.difference);
      if (closest && closest.difference > rounding)
        found.set(placeKey(source), reportTypedSize(view, source, label, closest));
    }
  return [...found.values()];
};

interface Computed {
  readonly place: Place;
  readonly value: number;
  /** As a share of the computed size. */
  readonly difference: number;
}

/** Formulas labelled as such a size and not derived from the typed one. */
function findComputedLike(view: Inspector, source: Place, words: RegExp, typed: number): Computed[] {
  const found: Computed[] = [];
  for (const place of view.listFormulaPlaces()) {
    const value = view.readNumber(place);
    if (value === undefined || value * widest < typed || value > typed * widest || view.findCell(place)?.formula?.array)
      continue;
    if (found.length >= mostCandidates || !isLabelled(view, place, words)) continue;
    if (view.findUpstream([areaOf(place)]).has(placeKey(source))) continue;
    found.push({ place, value, difference: Math.abs(typed / value - 1) });
  }
  return found;
}

/** A size by its row's label; a sum by the heading of the column that it adds up. */
function isLabelled(view: Inspector, place: Place, words: RegExp): boolean {
  if (words.test(view.labels.readWordsBefore(place))) return true;
  const sumsItsColumn = view
    .listPrecedents(place)
    .some(
      ({ left, right, bottom, top }) =>
        left === place.column && right === left && bottom === place.row - 1 && top < bottom,
    );
  const isSum = view.parseFormulaAt(place)?.functions.has("SUM") === true;
  return isSum && sumsItsColumn && words.test(view.labels.readWordsAbove(place));
}

function reportTypedSize(view: Inspector, source: Place, label: string, { place, value }: Computed): Finding {
  return {
    kind: "size typed in",
    severity: "warning",
    place: view.formatAddress(source),
    what: `The ${shorten(label)} of the test, ${formatFigure(view.readNumber(source) ?? 0, 6)}, is typed in, though ${view.formatAddress(place)} computes ${formatFigure(value, 6)} (“${shorten(view.labels.readWordsBefore(place) || view.labels.readWordsAbove(place))}”).`,
    why: "Air change rate and specific leakage rate are divided by this size; typed in, it no longer follows the dimensions.",
    todo: "Restore the formula that fetches the computed size, or say where the typed one comes from.",
  };
}
