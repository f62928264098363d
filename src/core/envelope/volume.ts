import { ensure, missing } from "../errors";

/**
 * Which volume a criterion means: the whole internal volume without deducting partitions (ISO 9972), or the sum of clear room volumes
 * (passive-house practice). The same q50 passes by one and fails by the other.
 */
export const volumeConventions = ["whole internal", "room by room"] as const;

export interface Space {
  /** Floor area, m²; negative for a deduction. */
  readonly area: number;
  /** Mean clear height, m. */
  readonly height: number;
}

export interface Volume {
  readonly volume: number;
  /** Standard uncertainty from the length tolerance; 0 where none was given. */
  readonly standardUncertainty: number;
}

/**
 * Internal volume, m³: Σ area × mean height over the spaces.
 * With a tolerance on each measured length (a rectangular half-width, m), its standard uncertainty by the law of propagation
 * (JCGM 100, 5.1.2): u(length) = tolerance/√3; the area of a space is taken as a square's, both sides and the height measured
 * independently of each other and of other spaces: u²(A) = 2·A·u², u²(V) = Σ(h²·u²(A) + A²·u²). One height measured for all has one error: (ΣA)²·u² instead of ΣA²·u².
 * Errors: no space (missing), a height not above 0, a tolerance below 0, a sum not above 0.
 * Example: envelopeVolume([{ area: 80, height: 2.5 }, { area: 60, height: 2.4 }], 0.02) → { volume: 344.0, standardUncertainty: 1.249 }
 */
export function envelopeVolume(spaces: readonly Space[], lengthTolerance = 0, oneHeight = false): Volume {
  if (spaces.length === 0) throw missing("areas", "notGiven");
  ensure(lengthTolerance >= 0 && lengthTolerance < 10, "length tolerance", "lengthTolerance");
  let [volume, ofAreas, ofHeights, sum] = [0, 0, 0, 0];
  for (const { area, height } of spaces) {
    volume += area * height;
    sum += area;
    ofAreas += 2 * Math.abs(area) * height ** 2;
    ofHeights += area ** 2;
  }
  ensure(volume > 0, "areas", "noVolumeLeft");
  return {
    volume,
    standardUncertainty: lengthTolerance * Math.sqrt((ofAreas + (oneHeight ? sum ** 2 : ofHeights)) / 3),
  };
}
