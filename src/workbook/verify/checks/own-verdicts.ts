import { areaOf, isInside, placeKey, type SheetArea, type Place } from "../../book/area";

import { stepAlong } from "../../book/like-formulas";
import type { Check } from "../review";
import { claimsPass } from "../verdicts";
import { formatCellValue, showFormula } from "../../words";

const beside = [-3, -2, -1, 1, 2, 3];

/** Cells that say a test passes, by a formula without PASSFAIL. */
export const findOwnVerdicts: Check = ({ view, verdicts, runs }) => {
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
  const alone = first.filter(([, { place }]) => !isControl(place));
  return alone.map(([, { place }]) => ({
    kind: "verdict not computed by PASSFAIL",
    severity: "warning",
    place: view.formatAddress(place),
    what: `${formatCellValue(view.readText(place))} is given by ${showFormula(view.findCell(place)?.formula?.text ?? "")}, not by PASSFAIL.`,
    why: "The limit, rule and result it uses are its own; it may ignore the validity checks of the test.",
    todo: "Compute the verdict with PASSFAIL, and have this cell repeat it.",
  }));
};
