import { referenceDensity } from "../air/density";
import { ensure, requirePositive } from "../errors";
import { leakageFlow } from "../leakage/curve";

export interface LeakageAreaTerms {
  /** Reference pressure, Pa. */
  readonly pressure: number;
  readonly dischargeCoefficient: number;
}

/** Named definitions; a silent default misleads by a factor of two. Effective: ASHRAE Fundamentals ch. 16 and ASTM E779; ISO: ISO 9972:2015; equivalent: CAN/CGSB-149.10, C_d 0.611. */
export const leakageAreaTerms = {
  "effective 4 Pa": { pressure: 4, dischargeCoefficient: 1 },
  "ISO 9972 10 Pa": { pressure: 10, dischargeCoefficient: 1 },
  "equivalent 10 Pa": { pressure: 10, dischargeCoefficient: 0.611 },
} satisfies Record<string, LeakageAreaTerms>;

export type LeakageAreaDefinition = keyof typeof leakageAreaTerms;

export const leakageAreaDefinitions = Object.keys(leakageAreaTerms) as LeakageAreaDefinition[];

/** A value for each named definition. */
export function byDefinition<Value>(valueOf: (terms: LeakageAreaTerms) => Value): Record<LeakageAreaDefinition, Value> {
  return Object.fromEntries(
    leakageAreaDefinitions.map((definition) => [definition, valueOf(leakageAreaTerms[definition])]),
  ) as Record<LeakageAreaDefinition, Value>;
}

export function requireDischargeCoefficient(got: number): void {
  ensure(got > 0 && got <= 1, "discharge coefficient", "aboveZeroUpTo", { highest: 1, got });
}

/** Factor from a flow in m³/h at a pressure in Pa to a leakage area in m²: √(ρ0/2)/(3600·C_d·√p). */
export function leakageAreaPerFlow({ pressure, dischargeCoefficient }: LeakageAreaTerms): number {
  requirePositive(pressure, "pressure");
  requireDischargeCoefficient(dischargeCoefficient);
  return Math.sqrt(referenceDensity / 2 / pressure) / (3600 * dischargeCoefficient);
}

/**
 * Leakage area, m²: A = q/3600/C_d·√(ρ0/2)/√p, q = C·p^n in m³/h at the definition's pressure p.
 * Errors: C, pressure or discharge coefficient not above 0.
 * Source: ISO 9972:2015, ASTM E779, ASHRAE Handbook—Fundamentals 2021 ch. 16.
 * Example: leakageArea(270 / 50 ** 0.65, 0.65, leakageAreaTerms["effective 4 Pa"]) → 0.00563
 */
export function leakageArea(coefficient: number, exponent: number, terms: LeakageAreaTerms): number {
  return leakageAreaPerFlow(terms) * leakageFlow(coefficient, exponent, terms.pressure);
}
