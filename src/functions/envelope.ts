import {
  envelopeSize as sizeOf,
  envelopeVolume as volumeOf,
  floorArea as areaOfPlan,
  MethodError,
  roofShapes,
  volumeConventions,
  type Corner,
  type Space,
} from "../core/index";
import { isBlank, isBlankOrZero, numberIn, onlyCell, oneOf, plain, rowsOf } from "./cells/cells";
import { inCell } from "./cells/host-error";
import { oneOptionalNumber } from "./cells/single";
import { optional, sizes, spread, words } from "./cells/spread";

/**
 * Rows without trailing blanks. A trailing 0, 0 is a blank row that a host sent as zeros, unless this host shows blanks as blanks. A single one that
 * could as well be the corner at the origin is refused: leaving it out would change the area without a sign of it.
 */
function trimmed(cells: readonly unknown[][]): unknown[][] {
  const isZero = (row: readonly unknown[]) => row.every((cell) => cell === 0);
  const isEmpty = (row: readonly unknown[]) => row.every(isBlank);
  const rows = cells.filter((row) => !isEmpty(row));
  if (rows.length < cells.length) return [...cells];
  const last = cells.findLastIndex((row) => !isZero(row));
  const kept = cells.slice(0, last + 1);
  if (cells.length - kept.length === 1 && !kept.some(isZero) && kept.length >= 3) {
    const rule =
      "0, 0 could be a corner or a blank row: list the corner at the origin first, or leave the blank row out";
    throw new MethodError("invalid", "corners", rule, cells.length);
  }
  return kept;
}

/** Corners from two columns x, y. Rows blank in both are skipped. */
function cornersIn(argument: unknown): Corner[] {
  return trimmed(rowsOf(argument)).flatMap((cells, index) => {
    const row = index + 1;
    if (cells.length !== 2) {
      throw new MethodError("invalid", "corners", `two columns are needed, x and y, not ${cells.length}`);
    }
    const x = numberIn(cells[0], "corners", row);
    const y = numberIn(cells[1], "corners", row);
    if (x === undefined && y === undefined) return [];
    if (x === undefined || y === undefined) {
      throw new MethodError("missing", "corners", x === undefined ? "y without its x" : "x without its y", row);
    }
    return [{ x, y }];
  });
}

/**
 * Area of a plan from its corners, listed in order around it, in the square of their unit.
 * A corner at the origin comes first, since trailing rows of zeros count as blank. Walls that cross or touch are an error; deduct a void as an area of its own.
 * Equation: A = ½·|Σ (x_i·y_i+1 − x_i+1·y_i)|.
 * Source: Gauss's area formula (shoelace).
 * @customfunction FLOORAREA
 * @param corners Two columns, x and y, one row a corner, three or more. Blank rows are skipped; trailing 0, 0 means blank.
 * @returns The area.
 * @core envelope/floor-area.ts
 * @check authorities/plane-geometry.test.ts
 */
export function floorArea(corners: any[][]): number {
  return inCell(() => areaOfPlan(cornersIn(corners)));
}

function spacesIn(areas: unknown, heights: unknown): Space[] {
  const areaCells = rowsOf(areas).flat();
  const heightCells = rowsOf(heights).flat();
  const single = heightCells.length === 1;
  if (!single && heightCells.length !== areaCells.length) {
    throw new MethodError(
      "invalid",
      "heights",
      `${heightCells.length} heights for ${areaCells.length} areas: ranges of unlike size`,
    );
  }
  return areaCells.flatMap((areaCell, index) => {
    const heightCell = heightCells[single ? 0 : index];
    const row = index + 1;
    const noArea = isBlankOrZero(plain(areaCell, "areas", row));
    const noHeight = isBlankOrZero(plain(heightCell, "heights", single ? undefined : row));
    if (noArea && (noHeight || single)) return [];
    if (noArea) throw new MethodError("missing", "areas", "a height without its area", row);
    if (noHeight) throw new MethodError("missing", "heights", "an area without its height", row);
    const height = numberIn(heightCell, "heights", row)!;
    if (!(height > 0))
      throw new MethodError("invalid", "heights", `must be above 0 (got ${height}); deduct by a negative area`, row);
    return [{ area: numberIn(areaCell, "areas", row)!, height }];
  });
}

/**
 * Internal volume V, area by mean clear height, in the cube of their unit. Negative areas deduct.
 * With a length tolerance or a convention the result is one row of three cells: V, its standard uncertainty, the convention.
 * The convention belongs to the criterion: the same flow can pass over the whole internal volume and fail room by room.
 * The uncertainty of an area is taken as that of a square; long narrow rooms have more.
 * Equation: V = Σ A·h.
 * Source: ISO 9972:2015, internal volume; JCGM 100:2008 5.1.2 for the uncertainty.
 * @customfunction ENVELOPEVOLUME
 * @param areas Floor areas of the spaces, one a row; negative deducts. 0 means blank.
 * @param heights Mean clear heights, one for each area or one measured for all. 0 means blank.
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

/**
 * Volume, envelope area A_E (all six sides) and floor area A_F of a rectangular outline, three cells a row; columns in, columns out.
 * The space under a pitched roof counts as volume, not as floor. Add dormers and deduct voids with ENVELOPEVOLUME.
 * Equation: V = A·storeys·h + roof space; A_F = A·storeys; A_E = floor + walls + roof.
 * Source: plane geometry; ISO 9972:2015 for what the areas include.
 * @customfunction ENVELOPESIZE
 * @param length Length of the plan; the ridge runs along it. 0 means blank.
 * @param width Width of the plan. 0 means blank.
 * @param storeys Number of storeys. 0 means blank.
 * @param storey_height Height of one storey. 0 means blank.
 * @param [roof_shape] "flat" (default), "gable", "hip" or "mono-pitch".
 * @param [roof_rise] Height of the ridge above the eaves. 0 means blank.
 * @returns Volume, envelope area, floor area.
 * @core envelope/outline.ts
 * @check authorities/plane-geometry.test.ts
 */
export function envelopeSize(
  length: any[][],
  width: any[][],
  storeys: any[][],
  storey_height: any[][],
  roof_shape?: any[][],
  roof_rise?: any[][],
): any[][] {
  const inputs = {
    length: sizes("length", length),
    width: sizes("width", width),
    storeys: sizes("storeys", storeys),
    storeyHeight: sizes("storey_height", storey_height),
    roofShape: optional(words("roof_shape", roof_shape, roofShapes)),
    roofRise: optional(sizes("roof_rise", roof_rise)),
  };
  return inCell(() =>
    spread(
      inputs,
      ({ roofShape = "flat", roofRise = 0, ...outline }) => {
        const size = sizeOf({ ...outline, roofShape, roofRise });
        return [size.volume, size.envelopeArea, size.floorArea];
      },
      3,
    ),
  );
}
