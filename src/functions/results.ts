import {
  airChangeRate as airChanges,
  averagedResult as averageOf,
  leakageArea as areaOf,
  leakageAreaDefinitions,
  leakageAreaTerms,
  MethodError,
  oneDirectionRules,
  specificLeakage as leakagePerArea,
  type LeakageAreaTerms,
} from "../core/index";
import { choice, isBlankOrZero, numbersIn, optionalNumber } from "./cells/cells";
import { inCell } from "./cells/host-error";
import { sizes, spread } from "./cells/spread";
import { fromMethod, toMethod, unitSystem } from "./cells/units";

/**
 * Air change rate n_pr, 1/h: flow over internal volume; with the flow at 50 Pa it is n50 (ACH50).
 * Equation: n_pr = q_pr/V.
 * Source: ISO 9972:2015, air change rate at the reference pressure difference.
 * @customfunction AIRCHANGERATE
 * @param flow Flow, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param volume Internal volume, m³ (IP: ft³). 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns Air changes, 1/h.
 * @core results/rates.ts
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

/**
 * Specific leakage, m³/(h·m²) (SI L/s: L/(s·m²), IP: cfm/ft²): flow over the envelope area (q_E50 at 50 Pa) or the floor area (q_F50).
 * Equation: q_E = q/A_E; q_F = q/A_F.
 * Source: ISO 9972:2015, specific leakage rates.
 * @customfunction SPECIFICLEAKAGE
 * @param flow Flow, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param area Envelope or floor area, m² (IP: ft²). 0 means blank.
 * @param [units] "SI" (default), "SI L/s" or "IP".
 * @returns Flow per area.
 * @core results/rates.ts
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
    if (own.pressure === undefined)
      throw new MethodError("missing", "pressure", "a custom definition needs its pressure");
    if (own.dischargeCoefficient === undefined) {
      throw new MethodError("missing", "discharge_coefficient", "a custom definition needs its discharge coefficient");
    }
    return { pressure: own.pressure, dischargeCoefficient: own.dischargeCoefficient };
  }
  const terms = leakageAreaTerms[named];
  for (const [name, value, fixed] of [
    ["pressure", own.pressure, terms.pressure],
    ["discharge_coefficient", own.dischargeCoefficient, terms.dischargeCoefficient],
  ] as const) {
    if (value === undefined || value === fixed) continue;
    throw new MethodError(
      "invalid",
      name,
      `"${named}" fixes it at ${fixed} (got ${value}); use the definition "custom"`,
    );
  }
  return terms;
}

/**
 * Leakage area, cm² (IP: in²), of a curve q = C·Δp^n at the pressure of its definition, which must be named.
 * "effective 4 Pa": C_d 1 (ASTM E779, ELA); "ISO 9972 10 Pa": C_d 1; "equivalent 10 Pa": C_d 0.611 (CAN/CGSB-149.10, EqLA); "custom" takes its own.
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

/** Results of the runs of one direction; a 0 is a blank cell. */
function runsIn(argument: unknown, name: string): number[] {
  return numbersIn(argument, name).filter((result) => !isBlankOrZero(result));
}

/**
 * Mean of the two directions of a result (n50, q50, q_E50, …). Repeated runs are averaged within their direction first.
 * Equation: mean = (x_dep + x_pres)/2.
 * Source: ISO 9972:2015, mean of depressurization and pressurization.
 * @customfunction AVERAGEDRESULT
 * @param depressurization Result, or results of several runs. 0 means blank.
 * @param pressurization Result, or results of several runs. 0 means blank.
 * @param [one_direction] Where one direction is missing: "refuse" (default) or "accept", if the programme takes one direction.
 * @returns The mean.
 * @core results/averaged.ts
 * @check authorities/trade-practice.test.ts authorities/published-cells.test.ts
 */
export function averagedResult(
  depressurization: any[][],
  pressurization: any[][],
  one_direction?: string | null,
): number {
  return inCell(() =>
    averageOf(
      {
        depressurization: runsIn(depressurization, "depressurization"),
        pressurization: runsIn(pressurization, "pressurization"),
      },
      choice(one_direction, oneDirectionRules, "one_direction", "refuse"),
    ),
  );
}
