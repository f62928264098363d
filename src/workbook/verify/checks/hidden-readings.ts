import { placeKey, type SheetArea, type Place } from "../../book/area";

import type { Finding } from "../finding";
import { explainHiding } from "../visible";
import type { Check, Review } from "../review";
import { formatCount, formatList, formatCellValue } from "../../formatting";

/** Functions that take a test's readings as ranges. */
const takeReadings = new Set([
  "TESTRESULT",
  "RESULTCARD",
  "UNCERTAINTYBUDGET",
  "VALIDITYCHECKS",
  "LEAKAGEFIT",
  "FITRESIDUALS",
  "FLOWEXPONENT",
  "LEAKAGECOEFFICIENT",
  "INDUCEDPRESSURE",
  "FANFLOW",
  "BASELINEPRESSURE",
  "ONEPOINTFLOW",
  "TWOPOINTFLOW",
]);

/** Readings that enter a fit but cannot be seen on the sheet. */
export const findHiddenReadings: Check = (review) => {
  const found = new Map<string, { readonly why: string; readonly places: Map<number, Place> }>();
  for (const { id, arguments: given } of review.calls) {
    if (!takeReadings.has(id)) continue;
    for (const area of given.flatMap((argument) => argument?.areas ?? [])) collect(review, area, found);
  }
  return [...found.values()].map(({ why, places }) => reportHiddenReadings(review, why, [...places.values()]));
};

function collect(
  review: Review,
  area: SheetArea,
  found: Map<string, { why: string; places: Map<number, Place> }>,
): void {
  for (const place of review.view.listCells(area)) {
    const hidden = typeof review.view.readValue(place) === "number" ? explainHiding(review, place) : undefined;
    if (hidden === undefined) continue;
    const { by, why } = hidden;
    const key = `${place.sheet} ${why} ${by === "row" ? place.row : place.column}`;
    const group = found.get(key) ?? { why, places: new Map<number, Place>() };
    group.places.set(placeKey(place), place);
    found.set(key, group);
  }
}

function reportHiddenReadings({ view }: Review, why: string, places: readonly Place[]): Finding {
  const sorted = [...places].sort((a, b) => a.row - b.row || a.column - b.column);
  const cells = sorted.map((place) => `${view.formatAddress(place)} = ${formatCellValue(view.readValue(place))}`);
  return {
    kind: "hidden readings",
    severity: "error",
    place: sorted[0] ? view.formatAddress(sorted[0]) : "the workbook",
    what: `${formatCount(places.length, "figure")} of the test cannot be seen (${why}): ${formatList(cells, 4)}.`,
    why: "The figures enter the result although the sheet does not show them.",
    todo: "Unhide the cells; exclude a reading with its mark and a reason, never by hiding it.",
  };
}
