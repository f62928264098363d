import { zeroCelsius } from "../air/density";
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

/** Half-width in Pa of the stack's offset: a share of ρ_e·g·H·|T_i − T_e|/T_i, H in m, temperatures in °C. */
export function stackHalfWidth(
  share: number,
  outdoorDensity: number,
  height: number,
  { indoor, outdoor }: InsideOutside,
): number {
  return (share * outdoorDensity * freeFall * height * Math.abs(indoor - outdoor)) / (indoor + zeroCelsius);
}
