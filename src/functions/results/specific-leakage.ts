import { specificLeakage as leakagePerArea } from "../../core/index";
import { inCell } from "../cells/host-error";
import { sizes, spread } from "../cells/spread";
import { fromMethod, toMethod, unitSystem } from "../cells/units";

/**
 * Specific leakage, m³/(h·m²) (SI L/s: L/(s·m²), IP: cfm/ft²): flow over the envelope area (q_E50 at 50 Pa) or the
 * floor area (q_F50).
 * Equation: q_E = q/A_E; q_F = q/A_F.
 * Source: ISO 9972:2015, specific leakage rates.
 * @customfunction SPECIFICLEAKAGE
 * @param flow Flow, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param area Envelope or floor area, m² (IP: ft²). 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns Flow per area.
 * @core results/specific-leakage.ts
 * @check authorities/unit-systems.test.ts
 */
export function specificLeakage(flow: any[][], area: any[][], units?: string | null): any[][] {
  const inputs = { flow: sizes("flow", flow), area: sizes("area", area) };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ flow, area }) =>
      fromMethod(
        leakagePerArea(toMethod(flow, "flow", system), toMethod(area, "area", system)),
        "permeability",
        system,
      ),
    );
  });
}
