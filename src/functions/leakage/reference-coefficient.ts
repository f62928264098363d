import { directions, referenceCoefficient as atReference, referenceConditions, densityOfBoth } from "../../core/index";
import { choice } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { airIn, nameSettings, settingsIn } from "../settings/settings";
import { numbers, sizes, spread } from "../cells/spread";
import { toMethod } from "../cells/units";

/**
 * Leakage coefficient at reference conditions C_L (20 °C, 101 325 Pa, dry air); ASTM E779, ASTM E3158 and the US Army
 * Corps also correct for viscosity. ρ and μ are those of the air through the leaks: outdoor air when depressurizing,
 * indoor air when pressurizing.
 * Equation: C_L = C·(ρ/ρ0)^(1−n), by ASTM E779, ASTM E3158 and the US Army Corps also ·(μ/μ0)^(2n−1).
 * Source: ISO 9972:2015, C_L; ASTM E779-19, C0.
 * @customfunction REFERENCECOEFFICIENT
 * @param coefficient C at test conditions. 0 means blank.
 * @param exponent n. 0 means blank.
 * @param direction "depressurization" or "pressurization".
 * @param indoor_temperature Indoor air, °C (IP: °F). 0 is a value.
 * @param outdoor_temperature Outdoor air, °C (IP: °F). 0 is a value.
 * @param [settings] Two columns, label and value: standard, barometric pressure or altitude, indoor humidity, outdoor humidity, units.
 * @returns C_L, in the unit of C.
 * @core leakage/reference-conditions.ts
 * @check authorities/random-steps.test.ts authorities/density-by-altitude.test.ts
 */
export function referenceCoefficient(
  coefficient: any[][],
  exponent: any[][],
  direction: string,
  indoor_temperature: any[][],
  outdoor_temperature: any[][],
  settings?: any[][],
): any[][] {
  const inputs = {
    coefficient: sizes("coefficient", coefficient),
    exponent: sizes("exponent", exponent),
    indoor: numbers("indoor_temperature", indoor_temperature),
    outdoor: numbers("outdoor_temperature", outdoor_temperature),
  };
  return inCell(() => {
    const way = choice(direction, directions, "direction");
    const given = settingsIn(settings);
    return spread(inputs, ({ coefficient, exponent, indoor, outdoor }) => {
      const temperature = {
        indoor: toMethod(indoor, "temperature", given.system),
        outdoor: toMethod(outdoor, "temperature", given.system),
      };
      return nameSettings(() => {
        const density = densityOfBoth({ ...airIn(given), temperature });
        return atReference(coefficient, exponent, referenceConditions(given.standard, way, density, temperature));
      }, ["exponent", "indoor temperature", "outdoor temperature"]);
    });
  });
}
