import { airChangeRate as airChanges } from "../../core/index";
import { inCell } from "../cells/host-error";
import { sizes, spread } from "../cells/spread";
import { toMethod, unitSystem } from "../cells/units";

/**
 * Air change rate n_pr, 1/h: flow divided by internal volume; for the flow at 50 Pa it is n50 (ACH50).
 * Equation: n_pr = q_pr/V.
 * Source: ISO 9972:2015, air change rate at the reference pressure difference.
 * @customfunction AIRCHANGERATE
 * @param flow Flow, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param volume Internal volume, m³ (IP: ft³). 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns Air changes, 1/h.
 * @core results/specific-leakage.ts
 * @check authorities/trade-practice.test.ts authorities/published-cells.test.ts
 */
export function airChangeRate(flow: any[][], volume: any[][], units?: string | null): any[][] {
  const inputs = { flow: sizes("flow", flow), volume: sizes("volume", volume) };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ flow, volume }) =>
      airChanges(toMethod(flow, "flow", system), toMethod(volume, "volume", system)),
    );
  });
}
