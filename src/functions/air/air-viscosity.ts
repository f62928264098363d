import { airViscosity as viscosityOf } from "../../core/index";
import { inCell } from "../cells/host-error";
import { numbers, spread } from "../cells/spread";
import { fromMethod, toMethod, unitSystem } from "../cells/units";

/**
 * Dynamic viscosity of air μ, Pa·s (IP: lb/(ft·s)).
 * Equation: μ = 1.458e-6·T^1.5/(T + 110.4).
 * Source: US Standard Atmosphere 1976 eqn. 51 (Sutherland).
 * @customfunction AIRVISCOSITY
 * @param temperature Air temperature, °C (IP: °F). 0 is a value.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The viscosity.
 * @core air/viscosity.ts
 * @check authorities/reference-checks.test.ts
 */
export function airViscosity(temperature: any[][], units?: string | null): any[][] {
  const inputs = { temperature: numbers("temperature", temperature) };
  return inCell(() => {
    const system = unitSystem(units);
    return spread(inputs, ({ temperature }) =>
      fromMethod(viscosityOf(toMethod(temperature, "temperature", system)), "viscosity", system),
    );
  });
}
