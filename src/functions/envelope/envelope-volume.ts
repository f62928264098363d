import { envelopeVolume as volumeOf, volumeConventions, type Space } from "../../core/index";
import { isBlankOrZero, numberIn, onlyCell, oneOf, plain, rowsOf } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { oneOptionalNumber } from "../cells/spread";
import { invalid, missing } from "../cells/rule-codes";

function spacesIn(areas: unknown, heights: unknown): Space[] {
  const areaCells = rowsOf(areas).flat();
  const heightCells = rowsOf(heights).flat();
  const single = heightCells.length === 1;
  if (!single && heightCells.length !== areaCells.length) {
    throw invalid("heights", "unlikeSize", {
      count: heightCells.length,
      others: areaCells.length,
      of: "areas",
    });
  }
  return areaCells.flatMap((areaCell, index) => {
    const heightCell = heightCells[single ? 0 : index];
    const row = index + 1;
    const noArea = isBlankOrZero(plain(areaCell, "areas", row));
    const noHeight = isBlankOrZero(plain(heightCell, "heights", single ? undefined : row));
    if (noArea && (noHeight || single)) return [];
    if (noArea) throw missing("areas", "without", { part: "a height", lacks: "area" }, row);
    if (noHeight) throw missing("heights", "without", { part: "an area", lacks: "height" }, row);
    const height = numberIn(heightCell, "heights", row)!;
    if (!(height > 0)) throw invalid("heights", "aboveZero", { got: height }, row);
    return [{ area: numberIn(areaCell, "areas", row)!, height }];
  });
}

/**
 * Internal volume V, floor area times mean clear height; m² and m give m³. Negative areas are deducted. With a length
 * tolerance or a convention the result is one row of three cells: V, its standard uncertainty and the convention. The
 * convention goes with the criterion: the same flow can pass with the whole internal volume and fail room by room. The
 * uncertainty of each area is taken as that of a square; long narrow rooms have more.
 * Equation: V = Σ A·h.
 * Source: ISO 9972:2015, internal volume; JCGM 100:2008 5.1.2 for the uncertainty.
 * @customfunction ENVELOPEVOLUME
 * @param areas Floor areas of the spaces, one per row; a negative area is deducted. 0 means blank.
 * @param heights Mean clear heights, one per area or one measured for all. 0 means blank.
 * @param [length_tolerance] Half-width of the tolerance on each measured length, in the unit of the heights. 0 means blank.
 * @param [convention] "whole internal" (no partitions deducted) or "room by room" (clear room volumes).
 * @returns V; or V, standard uncertainty, convention.
 * @core envelope/volume.ts
 * @check authorities/plane-geometry.test.ts authorities/random-steps.test.ts
 */
export function envelopeVolume(
  areas: any[][],
  heights: any[][],
  length_tolerance?: any[][],
  convention?: string | null,
): any[][] {
  return inCell(() => {
    const tolerance = oneOptionalNumber(length_tolerance, "length_tolerance");
    const named = oneOf(onlyCell(convention, "convention"), volumeConventions, "convention") ?? "";
    const { volume, standardUncertainty } = volumeOf(
      spacesIn(areas, heights),
      tolerance ?? 0,
      rowsOf(heights).flat().length === 1,
    );
    if (tolerance === undefined && named === "") return [[volume]];
    return [[volume, tolerance === undefined ? "" : standardUncertainty, named]];
  });
}
