import type { InsideOutside } from "../direction";
import { freeFall } from "../planning/natural-pressure";

/**
 * By how much the baseline moved from before to after, beyond what its readings' own uncertainty explains, Pa: d² = (B2 − B1)² − u²(B1) − u²(B2), not below 0.
 */
export function baselineMovement(before: number, after: number, uBefore: number, uAfter: number): number {
  return Math.sqrt(Math.max(0, (after - before) ** 2 - uBefore ** 2 - uAfter ** 2));
}

/** Half-width in Pa of the wind's offset: a share of ΔC_p·½ρ_e·U², U in m/s. */
export function windHalfWidth(share: number, coefficient: number, outdoorDensity: number, speed: number): number {
  return (share * coefficient * outdoorDensity * speed ** 2) / 2;
}

/** Half-width in Pa of the stack's offset: a share of g·H·|ρ_e − ρ_i|, H in m, the densities of the test's air in kg/m³. */
export function stackHalfWidth(share: number, height: number, { indoor, outdoor }: InsideOutside): number {
  return share * freeFall * height * Math.abs(outdoor - indoor);
}
