import { areaOf, isInside, placeKey, type SheetArea, type Place } from "../../book/area";

import { stepAlong } from "../../book/like-formulas";
import { findJudgedRuns } from "../result-steps";
import type { Check, Review } from "../review";
import { listRunsUnder } from "./verdict-validity";
import { claimsPass } from "../verdicts";
import { formatCellValue, showFormula } from "../../formatting";

/** A comparison of a result with its limit that depends on the validity checks of every run is as good as PASSFAIL. */
function takesChecks(review: Review, place: Place): boolean {
  const { view, judgements, calls } = review;
  const behind = view.findUpstream([areaOf(place)]);
  const judgement = judgements.find(({ place: own, comparison }) => comparison && behind.has(placeKey(own)));
  if (!judgement) return false;
  const checked = calls.filter(({ id, place: own }) => id === "VALIDITYCHECKS" && behind.has(placeKey(own)));
  const areas = checked.flatMap((call) => call.arguments.slice(1, 2).flatMap((argument) => argument?.areas ?? []));
  const needed = findJudgedRuns(review, judgement);
  return listRunsUnder(review, areas, needed).length === needed.length;
}

const beside = [-3, -2, -1, 1, 2, 3];

/** Cells that say a test passes, by a formula without PASSFAIL. */
export const findOwnVerdicts: Check = (review) => {
  const { view, verdicts, runs } = review;
  if (runs.length === 0) return [];
  const given = new Set(
    verdicts.flatMap(({ call, cells }) => [call.place, ...cells.map(({ place }) => place)]).map(placeKey),
  );
  const readings = new Set(runs.flatMap((run) => run.readings.map(({ pressure }) => placeKey(pressure))));
  const own = new Map<number, { readonly place: Place; readonly behind: ReadonlyMap<number, Place> }>();
  for (const { place, text } of view.listTexts()) {
    if (!claimsPass(text) || given.has(placeKey(place)) || !view.findCell(place)?.formula) continue;
    if (view.dependsOn([areaOf(place)], given)) continue;
    const behind = view.findUpstream([areaOf(place)]);
    if ([...behind.keys()].some((key) => readings.has(key))) own.set(placeKey(place), { place, behind });
  }
  const first = [...own].filter(
    ([key, { behind }]) => ![...own.keys()].some((other) => other !== key && behind.has(other)),
  );
  const isGiven = (areas: readonly SheetArea[]): boolean => view.dependsOn(areas, given);
  // A computation next to the verdict, or compared with it, is a cross-check, and fine as such.
  const isControl = (place: Place): boolean =>
    beside.some((step) => isGiven([areaOf(stepAlong(place, "row", step))])) ||
    [...view.listFormulaPlaces()].some((reader) => {
      const read = view.listPrecedents(reader);
      return (
        read.some((area) => isInside(area, place.row, place.column) && area.sheet === place.sheet) && isGiven(read)
      );
    });
  const alone = first.filter(([, { place }]) => !isControl(place) && !takesChecks(review, place));
  return alone.map(([, { place }]) => ({
    kind: "verdict not computed by PASSFAIL",
    severity: "warning",
    place: view.formatAddress(place),
    what: `${formatCellValue(view.readText(place))} is given by ${showFormula(view.findCell(place)?.formula?.text ?? "")}, not by PASSFAIL.`,
    why: "The limit, rule and result it uses are its own; it may ignore the validity checks of the test.",
    todo: "Compute the verdict with PASSFAIL, and have this cell repeat it.",
  }));
};
