import { usualPressure } from "../constants";
import { ensure, missing, requirePositive } from "../errors";
import { assumedExponent } from "../leakage/expected-exponent";
import { requireExponent } from "../leakage/curve";
import { leakageAreaPerFlow, leakageAreaTerms, type LeakageAreaDefinition } from "../results/leakage-area";
import type { TestedBuilding } from "../results/specific-leakage";

/** What a limit is a limit of, and the size of the building by which it divides: its name here, and as a tester knows it. */
const sizeOfQuantity = {
  "air change rate": ["volume", "volume"],
  "per envelope area": ["envelopeArea", "envelope area"],
  "per floor area": ["floorArea", "floor area"],
  "leakage area per envelope area": ["envelopeArea", "envelope area"],
} as const;

export type TargetQuantity = keyof typeof sizeOfQuantity;

export const targetQuantities = Object.keys(sizeOfQuantity) as TargetQuantity[];

/** A programme's limit, without its number: columns of limits share these terms. */
export interface TargetTerms {
  readonly quantity: TargetQuantity;
  /** Pressure at which the limit holds, Pa; 50 where not given, that of the definition for a leakage area. */
  readonly pressure?: number | undefined;
  /** For a leakage area, which one: the definitions differ by a factor of two. */
  readonly definition?: LeakageAreaDefinition | undefined;
}

const squareCentimetre = 1e-4;

/** The size of the building by which the quantity divides: m³ or m². Errors: not given yet (missing), not above 0. */
function sizeFor(quantity: TargetQuantity, building: TestedBuilding): number {
  const [name, label] = sizeOfQuantity[quantity];
  const size = building[name];
  if (size === undefined) throw missing(label, "neededWith", { other: quantity });
  requirePositive(size, label);
  return size;
}

/**
 * Pressure at which the limit holds, Pa.
 * Errors: a leakage area without its definition (missing), or with another pressure than its definition's.
 * Example: targetPressure({ quantity: "leakage area per envelope area", definition: "equivalent 10 Pa" }) → 10
 */
export function targetPressure({ quantity, pressure, definition }: TargetTerms): number {
  if (quantity !== "leakage area per envelope area") {
    requirePositive(pressure ?? usualPressure, "reference pressure");
    return pressure ?? usualPressure;
  }
  if (definition === undefined) {
    throw missing("leakage area definition", "limitNeedsDefinition");
  }
  const fixed = leakageAreaTerms[definition].pressure;
  ensure(pressure === undefined || pressure === fixed, "reference pressure", "definitionFixes", {
    definition,
    fixed,
    got: pressure ?? NaN,
  });
  return fixed;
}

/** Flow, m³/h, at the limit's own pressure, for one unit of the limit. */
function flowPerUnit(terms: TargetTerms, building: TestedBuilding): number {
  const size = sizeFor(terms.quantity, building);
  const { definition } = terms;
  if (terms.quantity !== "leakage area per envelope area" || definition === undefined) return size;
  return (squareCentimetre * size) / leakageAreaPerFlow(leakageAreaTerms[definition]);
}

/** Factor from the flow at the limit's pressure to the flow at another: (p/p_limit)^n, exactly 1 where they are the same. */
function fromTargetPressure(terms: TargetTerms, pressure: number, exponent: number): number {
  const own = targetPressure(terms);
  requirePositive(pressure, "pressure");
  requireExponent(exponent, "exponent");
  return Math.pow(pressure / own, exponent);
}

/**
 * Largest flow that a limit allows, m³/h at a pressure (50 Pa): limit × size, carried from the limit's pressure to the other by (p/p_limit)^n.
 * Both hold at reference conditions.
 * @param limit 1/h, m³/(h·m²), or cm²/m² for a leakage area.
 * @param exponent n; 0.65 is assumed. It does not matter where the limit holds at that pressure already.
 * Errors: limit, size or pressure not above 0; size or definition not given yet; an exponent outside 0.4 to 1.1.
 * Source: ISO 9972:2015, derived quantities; q = C·Δp^n.
 * Example: allowedFlow(0.6, { quantity: "air change rate" }, { volume: 450 }) → 270.0
 */
export function allowedFlow(
  limit: number,
  terms: TargetTerms,
  building: TestedBuilding,
  exponent = assumedExponent,
  pressure = usualPressure,
): number {
  requirePositive(limit, "target");
  return limit * flowPerUnit(terms, building) * fromTargetPressure(terms, pressure, exponent);
}

/**
 * The other way round: what a flow, m³/h at a pressure (50 Pa), is in the limit's own quantity and at its own pressure.
 * Result in 1/h, m³/(h·m²), or cm²/m². Errors as `allowedFlow`; flow not above 0.
 * Example: inTargetQuantity(270, { quantity: "air change rate" }, { volume: 450 }) → 0.600
 */
export function inTargetQuantity(
  flow: number,
  terms: TargetTerms,
  building: TestedBuilding,
  exponent = assumedExponent,
  pressure = usualPressure,
): number {
  requirePositive(flow, "flow");
  return flow / (flowPerUnit(terms, building) * fromTargetPressure(terms, pressure, exponent));
}
