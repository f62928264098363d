import { requirePositive, type Term } from "../errors";

/** The sizes a flow is divided by; each may be absent. m³ and m². */
export interface TestedBuilding {
  readonly volume?: number | undefined;
  readonly envelopeArea?: number | undefined;
  readonly floorArea?: number | undefined;
}

/** What a leakage is per volume and per area; absent where the size is not known. */
export interface SpecificLeakages<Value> {
  /** n, 1/h */
  readonly airChangeRate: Value | undefined;
  /** q_E and q_F, m³/(h·m²) */
  readonly perEnvelopeArea: Value | undefined;
  readonly perFloorArea: Value | undefined;
}

function dividedBy(size: number, term: Term): (flow: number) => number {
  requirePositive(size, term);
  return (flow) => flow / size;
}

/**
 * The specific leakages of a flow in m³/h, or of whatever holds several, such as a flow with its limits.
 * @param divide Applies the division to each flow.
 * Errors: a size not above 0.
 * Source: ISO 9972:2015, n_pr, q_Epr and q_Fpr.
 * Example: specificLeakages({ volume: 512 }, (perSize) => perSize(300)) → { airChangeRate: 0.586, … }
 */
export function specificLeakages<Value>(
  { volume, envelopeArea, floorArea }: TestedBuilding,
  divide: (perSize: (flow: number) => number) => Value,
): SpecificLeakages<Value> {
  const per = (size: number | undefined, term: Term) =>
    size === undefined ? undefined : divide(dividedBy(size, term));
  return {
    airChangeRate: per(volume, "volume"),
    perEnvelopeArea: per(envelopeArea, "envelope area"),
    perFloorArea: per(floorArea, "floor area"),
  };
}

/**
 * Air change rate, 1/h: n = q/V with q in m³/h and V in m³. Source: ISO 9972:2015, n_pr.
 * Example: airChangeRate(300, 512) → 0.586
 */
export function airChangeRate(flow: number, volume: number): number {
  return specificLeakage(flow, volume, "volume");
}

/**
 * Specific leakage, m³/(h·m²): q over the envelope area (q_E) or the floor area (q_F). Source: ISO 9972:2015, q_Epr and q_Fpr.
 * Example: specificLeakage(400, 350) → 1.143
 */
export function specificLeakage(flow: number, size: number, term: Term = "area"): number {
  requirePositive(flow, "flow");
  return dividedBy(size, term)(flow);
}
