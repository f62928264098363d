import { areaOf, isSingleCell, placeKey, type Place } from "../../book/area";
import { describeAdjustments } from "../units";

import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { formatCount, showFormula } from "../../formatting";

/** Figures hard-coded in formulas on the way to the result, or from there to the cover, that change it a little: a factor of 0.95, a deduction of 0.05. */
export const findHiddenAdjustments: Check = (review) => {
  const { view } = review;
  const found = new Map<string, { readonly place: Place; readonly what: string; count: number }>();
  const ofSizes = findSizes(review);
  const places = [...new Map([...review.chain, ...findRepeating(review)]).values()];
  places.sort((one, other) => one.sheet - other.sheet || one.row - other.row || one.column - other.column);
  for (const place of places) {
    const root = view.parseFormulaAt(place)?.root;
    if (!root) continue;
    for (const what of describeAdjustments(review, root, place, ofSizes.has(placeKey(place)))) {
      const key = `${what} ${view.findPattern(place) ?? ""}`;
      const same = found.get(key);
      if (same) same.count++;
      else found.set(key, { place, what, count: 1 });
    }
  }
  return [...found.values()].map((one) => reportAdjustment(review, one));
};

const sizes = ["volume", "envelope area", "floor area"];

/** Every cell on the way to a size by which a result is divided. */
function findSizes({ view, runs }: Review): ReadonlyMap<number, Place> {
  return view.findUpstream(
    runs.flatMap(({ settings }) => sizes.flatMap((label) => settings.get(label)?.place ?? [])).map(areaOf),
  );
}

/** Cells that read the judged figure, directly or indirectly: covers and reports. */
function findRepeating({ view, verdicts }: Review): Map<number, Place> {
  const judged = verdicts.flatMap(({ result }) => (result?.area && isSingleCell(result.area) ? [result.area] : []));
  let read = new Set(judged.map(({ sheet, top, left }) => placeKey({ sheet, row: top, column: left })));
  const found = new Map<number, Place>();
  for (let step = 0; step < 2; step++) {
    const readers = view.listFormulaPlaces().filter((place) =>
      view.listPrecedents(place).some((area) => {
        const { sheet, top, left } = area;
        return isSingleCell(area) && read.has(placeKey({ sheet, row: top, column: left }));
      }),
    );
    read = new Set(readers.map(placeKey));
    for (const place of readers) found.set(placeKey(place), place);
  }
  return found;
}

function reportAdjustment(
  { view }: Review,
  { place, what, count }: { place: Place; what: string; count: number },
): Finding {
  const more = count > 1 ? `, and ${formatCount(count - 1, "further cell")} likewise` : "";
  return {
    kind: "hard-coded figure",
    severity: "warning",
    place: view.formatAddress(place),
    what: `${showFormula(view.findCell(place)?.formula?.text ?? "")} ${what}${more}; no cell shows this figure and its reason.`,
    why: "The judged figure, or what is shown of it, goes through this cell; nobody reading the sheet sees an adjustment inside a formula.",
    todo: "Ask for the reason, and have the figure moved to its own cell with its source.",
  };
}
