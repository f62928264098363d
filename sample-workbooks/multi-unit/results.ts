import { onSheet } from "../blocks/address";
import { letterhead, pageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { palette } from "../blocks/style";
import { type BuildingPlaces, buildingResults } from "./building-results";
import { footer, sheets, testedCount, unitRows } from "./places";
import type { TestedPlaces } from "./runs";
import { unitResults } from "./unit-results";

const buildingAt = unitRows.last + 3;

/** Units first, a row each; then the building, whose value is the sum of the flows over the sum of the volumes. */
export function resultsPage(tested: readonly TestedPlaces[]): Page & { readonly places: BuildingPlaces } {
  const widths = [
    ...[1.5, 6.5, 13, 8, 10, 7.5, 10, 7.5, 11, 7.5, 7.5, 7.5, 8.5, 13, 10, 10, 10.5, 10.5, 9, 10, 10, 2],
    ...[7, 2, 9, 10, 9, 10, 10, 9, 10],
  ];
  const sheet = new Sheet(sheets.results, widths, palette.petrol, {
    orientation: "landscape",
    areas: [`B1:U${buildingAt + 24}`],
    pages: 1,
    footer,
  });
  const lead =
    "All flows at 50 Pa and reference conditions, depressurization. Unguarded less guarded is what comes from the neighbours. Per six sides: the unguarded flow; per area to outdoors and ground: the guarded one. Untested units stay blank.";
  pageHead(sheet, letterhead, ["B", "U"], sheets.results, lead);
  sheet.heightOf(14, 5, buildingAt + 24);
  unitResults(sheet, tested);
  const places = buildingResults(sheet, buildingAt);
  const column = (letter: string) => onSheet(sheets.results, `${letter}${unitRows.first}:${letter}${unitRows.last}`);
  const names = column("Y").replaceAll(`$${unitRows.last}`, `$${unitRows.first + testedCount - 1}`);
  return {
    sheet,
    names: {
      TestedUnits: names,
      Basis: onSheet(sheets.results, places.basisCell),
      CriterionSuits: onSheet(sheets.results, places.suitsCell),
    },
    places,
  };
}
