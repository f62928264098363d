import { holeDiameter as diameterOf } from "../../core/index";
import { inCell } from "../cells/host-error";
import { optional, sizes, spread } from "../cells/spread";
import { fromMethod, toMethod, unitSystem } from "../cells/units";

/**
 * Diameter, mm (IP: in), of the round hole equivalent to a leakage area. With a discharge coefficient it is the
 * diameter of the real hole behind a leakage area defined with C_d 1.
 * Equation: d = √(4·A/(π·C_d)).
 * Source: plane geometry; a sharp hole has C_d 0.6 (common practice).
 * @customfunction HOLEDIAMETER
 * @param area Leakage area, cm² (IP: in²). 0 means blank.
 * @param [discharge_coefficient] C_d of the real hole, such as 0.6; if not given 1, for a hole of the same area. 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The diameter.
 * @core repair/target-gap.ts
 * @check authorities/target-gap.test.ts
 */
export function holeDiameter(area: any[][], discharge_coefficient?: any[][], units?: string | null): any[][] {
  const inputs = {
    area: sizes("area", area),
    coefficient: optional(sizes("discharge_coefficient", discharge_coefficient)),
  };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ area, coefficient }) =>
      fromMethod(diameterOf(toMethod(area, "leakageArea", system), coefficient), "diameter", system),
    );
  });
}
