import { heatLoss as lossOf } from "../../core/index";
import { inCell } from "../cells/host-error";
import { numbers, optional, sizes, spread } from "../cells/spread";
import { differenceToMethod, fromMethod, toMethod, unitSystem } from "../cells/units";

/**
 * Heat loss of an air flow, three cells per row: coefficient, power and energy. The coefficient H is in W/K (IP:
 * Btu/(h·°F)), the power in W (IP: Btu/h), the energy over the degree hours in kWh (IP: kBtu). A result whose input is
 * missing stays blank.
 * Equation: H = c·q; P = H·ΔT; E = H·degree hours.
 * Source: EN 12831:2003 for c = 0.34 Wh/(m³·K); EN ISO 13789:2017 has 0.33 (both: check against your own copy).
 * @customfunction HEATLOSS
 * @param flow Infiltration or ventilation in use, not the flow at 50 Pa, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param [temperature_difference] Indoors minus outdoors, K (IP: °F). 0 is a value: pass blanks as "".
 * @param [degree_hours] K·h (IP: °F·h): degree days times 24. 0 means blank.
 * @param [heat_capacity] c of the air, Wh/(m³·K), 0.34 if not given (IP: Btu/h per cfm and °F, 1.095). 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns Heat loss coefficient, power, energy.
 * @core house/heat-loss.ts
 * @check authorities/planning-figures.test.ts
 */
export function heatLoss(
  flow: any[][],
  temperature_difference?: any[][],
  degree_hours?: any[][],
  heat_capacity?: any[][],
  units?: string | null,
): any[][] {
  const inputs = {
    flow: sizes("flow", flow),
    difference: optional(numbers("temperature_difference", temperature_difference)),
    hours: optional(sizes("degree_hours", degree_hours)),
    capacity: optional(sizes("heat_capacity", heat_capacity)),
  };
  return inCell(() => {
    const system = unitSystem(units);
    const degree = differenceToMethod(1, system);
    /** Wh/(m³·K) in one of the user's units of c: those are the method's, but for IP. */
    const ofCapacity = system.power === "W" ? 1 : toMethod(1, "power", system) / degree / toMethod(1, "flow", system);
    return spread(
      inputs,
      ({ flow, difference, hours, capacity }) => {
        const terms = {
          temperatureDifference: difference && difference * degree,
          degreeHours: hours && hours * degree,
        };
        const loss = lossOf(toMethod(flow, "flow", system), terms, capacity && capacity * ofCapacity);
        const { coefficient, power, energy } = loss;
        return [
          fromMethod(coefficient * degree, "power", system),
          fromMethod(power, "power", system) ?? "",
          fromMethod(energy, "energy", system) ?? "",
        ];
      },
      3,
    );
  });
}
