import { requirePositive } from "../errors";

/** Air change rate, 1/h: n = q/V with q in m³/h and V in m³. Source: ISO 9972:2015, n_pr. */
export function airChangeRate(flow: number, volume: number): number {
  requirePositive(flow, "flow");
  requirePositive(volume, "volume");
  return flow / volume;
}

/** Specific leakage, m³/(h·m²): q over the envelope area (q_E) or the floor area (q_F). Source: ISO 9972:2015, q_Epr and q_Fpr. */
export function specificLeakage(flow: number, area: number): number {
  requirePositive(flow, "flow");
  requirePositive(area, "area");
  return flow / area;
}
