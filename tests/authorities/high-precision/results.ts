import type { Exact } from "./decimal";
import { exact } from "./decimal";
import { REFERENCE_DENSITY, REFERENCE_VISCOSITY } from "./air";
import type { Interval, OrdinaryFit } from "./leakage";
import { logarithmicLimits, standardErrorAt } from "./leakage";

export type ReferenceStandard = "ISO 9972" | "ASTM E779";

/** ln(ρ/ρ0) and ln(μ/μ0) of the air in the leaks; ISO 9972 has no viscosity term. */
export interface Conditions {
  readonly lnDensity: Exact;
  readonly lnViscosity: Exact;
}

export function referenceConditions(standard: ReferenceStandard, density: Exact, viscosity: Exact): Conditions {
  const lnDensity = density.dividedBy(REFERENCE_DENSITY).ln();
  const lnViscosity = standard === "ASTM E779" ? viscosity.dividedBy(REFERENCE_VISCOSITY).ln() : exact(0);
  return { lnDensity, lnViscosity };
}

/** ln C_L = ln C + (1 − n)·L + (2n − 1)·M, with L and M of the conditions. */
export function lnReferenceCoefficient(lnC: Exact, n: Exact, conditions: Conditions): Exact {
  const density = exact(1).minus(n).times(conditions.lnDensity);
  return lnC.plus(density).plus(n.times(2).minus(1).times(conditions.lnViscosity));
}

/**
 * Flow at a pressure under reference conditions. C_L depends on n, so its standard error is that of the line at
 * ln p − L + 2M, not at ln p.
 */
export function referenceFlow(fit: OrdinaryFit, conditions: Conditions, pressure: Exact): Interval {
  const value = lnReferenceCoefficient(fit.lnC, fit.n, conditions).plus(fit.n.times(pressure.ln())).exp();
  const abscissa = pressure.ln().minus(conditions.lnDensity).plus(conditions.lnViscosity.times(2));
  return logarithmicLimits(value, fit.t.times(standardErrorAt(fit, abscissa)));
}

/** C at reference conditions with its limits: the flow at 1 Pa. */
export function referenceCoefficient(fit: OrdinaryFit, conditions: Conditions): Interval {
  return referenceFlow(fit, conditions, exact(1));
}

/** Leakage area in cm² of a flow in m³/h at a pressure in Pa. */
export function leakageArea(flow: Exact, pressure: Exact, dischargeCoefficient: Exact): Exact {
  const speed = pressure.times(2).dividedBy(REFERENCE_DENSITY).sqrt();
  return flow.dividedBy(3600).dividedBy(dischargeCoefficient.times(speed)).times(10000);
}
