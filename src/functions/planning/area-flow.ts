import { areaFlow as flowOf } from "../../core/index";
import { inCell } from "../cells/host-error";
import { leakageAreaTermsOf } from "../results/leakage-area";
import { sizes, spread } from "../cells/spread";
import { fromMethod, toMethod, unitSystem } from "../cells/units";

/**
 * Flow through a leakage area at a pressure, m³/h (SI L/s: L/s, IP: cfm). The exponent converts the flow from the
 * area's own pressure p_d; at p_d itself it has no effect. The definition must be named, as in LEAKAGEAREA. For a real
 * hole use "custom" at 50 Pa with C_d 0.6: 15 cm² give 30 m³/h.
 * Equation: q = 3600·C_d·A·√(2·p_d/ρ0)·(p/p_d)^n.
 * Source: ISO 9972:2015; ASTM E779-19; ASHRAE Handbook—Fundamentals 2021 ch. 16.
 * @customfunction AREAFLOW
 * @param area Leakage area, cm² (IP: in²). 0 means blank.
 * @param definition "effective 4 Pa", "ISO 9972 10 Pa", "equivalent 10 Pa" or "custom".
 * @param exponent n, 0.5 for a hole, about 0.65 for a building. 0 means blank.
 * @param at Pressure of the result, Pa. 0 means blank.
 * @param [pressure] Pressure of the area, Pa, for "custom". 0 means blank.
 * @param [discharge_coefficient] C_d, for "custom". 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The flow.
 * @core planning/component-leakage.ts
 * @check authorities/residential-components.test.ts
 */
export function areaFlow(
  area: any[][],
  definition: string,
  exponent: any[][],
  at: any[][],
  pressure?: any[][],
  discharge_coefficient?: any[][],
  units?: string | null,
): any[][] {
  const inputs = { area: sizes("area", area), exponent: sizes("exponent", exponent), at: sizes("at", at) };
  return inCell(() => {
    const terms = leakageAreaTermsOf(definition, pressure, discharge_coefficient);
    const system = unitSystem(units);
    return spread(inputs, ({ area, exponent, at }) =>
      fromMethod(flowOf(toMethod(area, "leakageArea", system), terms, exponent, at), "flow", system),
    );
  });
}
