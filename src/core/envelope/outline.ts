import { ensure, requirePositive } from "../errors";

export const roofShapes = ["flat", "gable", "hip", "mono-pitch"] as const;

export type RoofShape = (typeof roofShapes)[number];

/** A rectangular house in lengths of one unit; the ridge runs along the length, a mono-pitch rises across the width. */
export interface Outline {
  readonly length: number;
  readonly width: number;
  readonly storeys: number;
  readonly storeyHeight: number;
  readonly roofShape: RoofShape;
  /** Height of the ridge above the eaves. */
  readonly roofRise: number;
}

export interface EnvelopeSize {
  readonly volume: number;
  /** All six sides, walls to ground and to neighbours included. */
  readonly envelopeArea: number;
  readonly floorArea: number;
}

interface Roof {
  readonly volume: number;
  readonly slopes: number;
  readonly gables: number;
}

/** Plane geometry of the roof over a plan of length a by width b; a hip has one pitch on all four sides. */
function roofOver(a: number, b: number, shape: RoofShape, rise: number): Roof {
  switch (shape) {
    // A flat roof is a gable roof that does not rise.
    case "flat":
    case "gable":
      return { volume: (a * b * rise) / 2, slopes: 2 * a * Math.hypot(b / 2, rise), gables: b * rise };
    case "mono-pitch":
      return { volume: (a * b * rise) / 2, slopes: a * Math.hypot(b, rise), gables: a * rise + b * rise };
    case "hip": {
      const long = Math.max(a, b);
      const short = Math.min(a, b);
      return {
        volume: (rise * short * (3 * long - short)) / 6,
        slopes: 2 * long * Math.hypot(short / 2, rise),
        gables: 0,
      };
    }
  }
}

/**
 * Volume, envelope area and floor area of an outline, before any partition is deducted; the room under the roof counts as heated
 * volume, not as floor.
 * Errors: a length, width, storeys or storey height not above 0; a rise missing under a pitched roof or given over a flat one.
 * Source: plane geometry.
 * Example: envelopeSize({ length: 10, width: 8, storeys: 2, storeyHeight: 2.7, roofShape: "gable", roofRise: 3 })
 *   → { volume: 552.0, envelopeArea: 398.4, floorArea: 160.0 }
 */
export function envelopeSize(outline: Outline): EnvelopeSize {
  const { length, width, storeys, storeyHeight, roofShape, roofRise } = outline;
  requirePositive(length, "length");
  requirePositive(width, "width");
  requirePositive(storeys, "storeys");
  requirePositive(storeyHeight, "storey height");
  if (roofShape === "flat") ensure(roofRise === 0, "roof rise", "flatRoofRises");
  else ensure(roofRise > 0 && roofRise < Infinity, "roof rise", "noRoofRise", { roof: roofShape });
  const height = storeys * storeyHeight;
  const plan = length * width;
  const roof = roofOver(length, width, roofShape, roofRise);
  return {
    volume: plan * height + roof.volume,
    envelopeArea: plan + 2 * (length + width) * height + roof.slopes + roof.gables,
    floorArea: plan * storeys,
  };
}
