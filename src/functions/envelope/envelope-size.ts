import { envelopeSize as sizeOf, roofShapes } from "../../core/index";
import { inCell } from "../cells/host-error";
import { optional, sizes, spread, words } from "../cells/spread";

/**
 * Volume, envelope area A_E (all six sides) and floor area A_F of a rectangular building, three cells per row. Columns
 * of inputs give columns of results. The space under a pitched roof counts as volume, not as floor area. Add dormers
 * and deduct voids with ENVELOPEVOLUME.
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
