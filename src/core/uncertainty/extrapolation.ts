/**
 * By how much a power law may misstate a flow outside its readings, as half-widths of ln q per unit of ln(p/Δp). Assumptions, to be shown and editable: the
 * misfit of a power law to a quadratic leak with n from 0.6 to 0.75.
 */
export interface ExtrapolationAllowance {
  /** Above the highest reading, per ln(p/Δp_max). */
  readonly above: number;
  /** Below the lowest reading, per ln(Δp_min/p). */
  readonly below: number;
}

/** Half-width of ln q at p from the shape of the curve alone; 0 within the readings. */
export function extrapolationHalfWidth(
  pressure: number,
  readings: readonly { readonly pressure: number }[],
  { above, below }: ExtrapolationAllowance,
): number {
  let [lowest, highest] = [Infinity, 0];
  for (const reading of readings) {
    lowest = Math.min(lowest, reading.pressure);
    highest = Math.max(highest, reading.pressure);
  }
  if (pressure > highest) return above * Math.log(pressure / highest);
  if (pressure < lowest) return below * Math.log(lowest / pressure);
  return 0;
}
