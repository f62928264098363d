import { usualPressure } from "../constants";
import { allowedFlow, targetPressure, type TargetTerms } from "../judgement/target";
import { assumedExponent } from "../leakage/expected-exponent";
import { byDefinition, leakageAreaPerFlow, type LeakageAreaDefinition } from "../results/leakage-area";
import { type SpecificLeakages, specificLeakages, type TestedBuilding } from "../results/specific-leakage";

/** What a limit allows a building of one size, at reference conditions; what needs a size that was not given is undefined. */
export interface AllowedLeakage extends SpecificLeakages<number> {
  /** Largest flow at 50 Pa, m³/h. */
  readonly at50: number;
  /** Largest flow at the limit's own pressure, m³/h. */
  readonly atTargetPressure: number;
  /** m² */
  readonly leakageAreas: Record<LeakageAreaDefinition, number>;
}

/**
 * Largest leakage that a limit allows, as flow, rates and areas.
 * Errors: those of `allowedFlow`; a size given but not above 0.
 * Source: ISO 9972:2015, derived quantities; q = C·Δp^n with the exponent given or 0.65.
 * Example: allowedLeakage(0.6, { quantity: "air change rate" }, { volume: 450, envelopeArea: 520 })
 *   → { at50: 270.0, airChangeRate: 0.600, perEnvelopeArea: 0.519, … }
 */
export function allowedLeakage(
  limit: number,
  terms: TargetTerms,
  building: TestedBuilding,
  exponent = assumedExponent,
): AllowedLeakage {
  const flowAt = (pressure: number) => allowedFlow(limit, terms, building, exponent, pressure);
  const at50 = flowAt(usualPressure);
  return {
    at50,
    atTargetPressure: flowAt(targetPressure(terms)),
    ...specificLeakages(building, (perSize) => perSize(at50)),
    leakageAreas: byDefinition((its) => leakageAreaPerFlow(its) * flowAt(its.pressure)),
  };
}
