import {
  leakageArea as areaOf,
  leakageAreaDefinitions,
  leakageAreaTerms,
  type LeakageAreaTerms,
} from "../../core/index";
import { choice, neededWith, optionalNumber } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { sizes, spread } from "../cells/spread";
import { fromMethod, toMethod, unitSystem } from "../cells/units";
import { invalid } from "../cells/rule-codes";

/** The definitions that a tester may name. */
export const leakageAreaChoices = [...leakageAreaDefinitions, "custom"] as const;

/** The pressure and discharge coefficient of the definition named; only "custom" takes its own, so that no value is silently ignored. */
export function leakageAreaTermsOf(
  definition: unknown,
  pressure: unknown,
  dischargeCoefficient: unknown,
): LeakageAreaTerms {
  const named = choice(definition, leakageAreaChoices, "definition");
  const own = {
    pressure: optionalNumber(pressure, "pressure"),
    dischargeCoefficient: optionalNumber(dischargeCoefficient, "discharge_coefficient"),
  };
  if (named === "custom") {
    return {
      pressure: neededWith(own.pressure, "pressure", named),
      dischargeCoefficient: neededWith(own.dischargeCoefficient, "discharge_coefficient", named),
    };
  }
  const terms = leakageAreaTerms[named];
  for (const [name, value, fixed] of [
    ["pressure", own.pressure, terms.pressure],
    ["discharge_coefficient", own.dischargeCoefficient, terms.dischargeCoefficient],
  ] as const) {
    if (value === undefined || value === fixed) continue;
    throw invalid(name, "definitionFixes", { definition: named, fixed, got: value });
  }
  return terms;
}

/**
 * Leakage area, cm² (IP: in²), of a curve q = C·Δp^n by a definition that must be named. "effective 4 Pa": C_d 1 (ASTM
 * E779, ELA); "ISO 9972 10 Pa": C_d 1; "equivalent 10 Pa": C_d 0.611 (CAN/CGSB-149.10, EqLA); "custom" takes a pressure
 * and a C_d of your choice.
 * Equation: A = C·p^n/3600/C_d·√(ρ0/2)/√p.
 * Source: ISO 9972:2015; ASTM E779-19; ASHRAE Handbook—Fundamentals 2021 ch. 16.
 * @customfunction LEAKAGEAREA
 * @param coefficient C at reference conditions, m³/(h·Pa^n) (SI L/s and IP: in their unit of flow). 0 means blank.
 * @param exponent n. 0 means blank.
 * @param definition "effective 4 Pa", "ISO 9972 10 Pa", "equivalent 10 Pa" or "custom".
 * @param [pressure] Pa, for "custom". 0 means blank.
 * @param [discharge_coefficient] C_d, for "custom". 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns The leakage area.
 * @core results/leakage-area.ts
 * @check authorities/ashrae-leakage-areas.test.ts authorities/dm4bem.test.ts
 */
export function leakageArea(
  coefficient: any[][],
  exponent: any[][],
  definition: string,
  pressure?: any[][],
  discharge_coefficient?: any[][],
  units?: string | null,
): any[][] {
  const inputs = { coefficient: sizes("coefficient", coefficient), exponent: sizes("exponent", exponent) };
  return inCell(() => {
    const terms = leakageAreaTermsOf(definition, pressure, discharge_coefficient);
    const system = unitSystem(units);
    return spread(inputs, ({ coefficient, exponent }) =>
      fromMethod(areaOf(toMethod(coefficient, "flow", system), exponent, terms), "leakageArea", system),
    );
  });
}
