import { infiltrationFlow as infiltrationOf, infiltrationModels, type InfiltrationTerms } from "../../core/index";
import { choice } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { nameSettings, settingsIn } from "../settings/settings";
import { numbers, optional, sizes, spread } from "../cells/spread";
import { differenceToMethod, fromMethod, toMethod } from "../cells/units";

/**
 * Infiltration in use, m³/h (SI L/s: L/s, IP: cfm), estimated from the flow at 50 Pa. The models differ widely.
 * "n50/20" divides the flow at 50 Pa by 20. "basic" and "enhanced" model stack and wind with the settings "storeys" and
 * "shelter class" (1 open to 5 sheltered); "enhanced" also uses "flue" and "foundation" ("basement or slab", "crawl
 * space"). "EN ISO 13789" uses "exposed sides" ("several", "one"), "shielding" ("none", "moderate", "heavy"), "supply
 * flow" and "extract flow". "ASHRAE 62.2" uses "floor area", "building height" and "weather and shielding factor".
 * "normalized leakage" gives NL of ASHRAE 62.2, which has no unit.
 * Equation: q = q50/20 (n50/20), A_L·√(C_s·ΔT + C_w·U²) (basic), √((C·C_s·ΔT^n)² + (C·C_w·(s·G·U)^2n)²) (enhanced),
 * q50·e if supply equals extract (EN ISO 13789), NL·wsf·A_F/1.44 (ASHRAE 62.2).
 * Source: Sherman 1987 for n50/20; ASHRAE Handbook—Fundamentals 2021 ch. 16 tables 4 to 10; EN ISO 13789:2017; ASHRAE
 * 62.2 (the last two: check against your own copy).
 * @customfunction INFILTRATIONFLOW
 * @param model "n50/20", "basic", "enhanced", "EN ISO 13789", "ASHRAE 62.2" or "normalized leakage".
 * @param flow Flow at 50 Pa, m³/h (SI L/s: L/s, IP: cfm). 0 means blank.
 * @param [exponent] n, for models that work at a lower pressure; else the setting "exponent", else 0.65. 0 means blank.
 * @param [temperature_difference] Indoors minus outdoors, K (IP: °F), for "basic" and "enhanced". 0 is a value: pass blanks as "".
 * @param [wind_speed] At the weather station, m/s (IP: mph), for "basic" and "enhanced". 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value: whatever the model needs, and "units".
 * @returns The flow.
 * @core house/infiltration.ts
 * @check authorities/infiltration.test.ts
 */
export function infiltrationFlow(
  model: string,
  flow: any[][],
  exponent?: any[][],
  temperature_difference?: any[][],
  wind_speed?: any[][],
  settings?: any[][],
): any[][] {
  const inputs = {
    flow: sizes("flow", flow),
    exponent: optional(sizes("exponent", exponent)),
    difference: optional(numbers("temperature_difference", temperature_difference)),
    wind: optional(numbers("wind_speed", wind_speed)),
  };
  return inCell(() => {
    const named = choice(model, infiltrationModels, "model");
    const set = settingsIn(settings);
    const { system } = set;
    return spread(inputs, ({ flow, exponent = set.exponent, difference, wind }) => {
      const terms: InfiltrationTerms = {
        ...set,
        flow: toMethod(flow, "flow", system),
        exponent,
        "temperature difference": difference && differenceToMethod(difference, system),
        "wind speed": toMethod(wind, "speed", system),
      };
      const result = nameSettings(() => infiltrationOf(named, terms), ["exponent", "wind speed"]);
      return named === "normalized leakage" ? result : fromMethod(result, "flow", system);
    });
  });
}
