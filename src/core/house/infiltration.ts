import { requireNotNegative, requirePositive, requireWithin } from "../errors";
import {
  basicStack,
  basicWind,
  enhancedStack,
  enhancedWind,
  shelterFactor,
  windMultiplier,
} from "./infiltration-tables";
import { coefficientOf, effectiveArea, entry, need, weather, type InfiltrationTerms } from "./infiltration-terms";

/** ASHRAE Handbook—Fundamentals 2021 ch. 16, basic model: Q = A_L·√(C_s·ΔT + C_w·U²) in L/s, A_L in cm². */
function basic(terms: InfiltrationTerms): number {
  const { U, dT } = weather(terms);
  const stack = entry(basicStack, terms, "storeys");
  const wind = entry(entry(basicWind, terms, "shelterClass"), terms, "storeys");
  return 3.6 * 1e4 * effectiveArea(terms) * Math.sqrt(stack * dT + wind * U ** 2);
}

/** ASHRAE Handbook—Fundamentals 2021 ch. 16, enhanced model: Q² = (c·C_s·ΔT^n)² + (c·C_w·(s·G·U)^2n)². */
function enhanced(terms: InfiltrationTerms): number {
  const { U, dT } = weather(terms);
  const { C, n } = coefficientOf(terms);
  const withFlue = need(terms, "flue") ? 1 : 0;
  const storeys = need(terms, "storeys");
  const stack = entry(enhancedStack, terms, "storeys")[withFlue]!;
  const wind = entry(enhancedWind[need(terms, "foundation")], terms, "storeys")[withFlue]!;
  const shelter = entry(shelterFactor, terms, "shelterClass")[withFlue * storeys]!;
  const speed = shelter * entry(windMultiplier, terms, "storeys") * U;
  return Math.hypot(C * stack * Math.pow(dT, n), C * wind * Math.pow(speed, 2 * n));
}

/** EN ISO 13789 (from memory: check against your own copy): e by exposure and shielding, f by exposure. */
const exposureTable = {
  several: { e: { none: 0.1, moderate: 0.07, heavy: 0.04 }, f: 15 },
  one: { e: { none: 0.03, moderate: 0.02, heavy: 0.01 }, f: 20 },
};

/** EN ISO 13789: n50·e/(1 + (f/e)·((V_s − V_e)/(V·n50))²), times V. */
function standardized(terms: InfiltrationTerms): number {
  const { e: byShielding, f } = exposureTable[need(terms, "exposedSides")];
  const e = byShielding[need(terms, "shielding")];
  const { flow, supply = 0, extract = 0 } = terms;
  for (const [name, value] of [
    ["supply flow", supply],
    ["extract flow", extract],
  ] as const)
    requireNotNegative(value, name);
  return (flow * e) / (1 + (f / e) * ((supply - extract) / flow) ** 2);
}

/** ASHRAE 62.2 (from memory: check against your own copy): NL = 1000·(ELA/A_F)·(H/2.5 m)^0.4. */
function normalizedLeakage(terms: InfiltrationTerms): number {
  const [floorArea, height] = [need(terms, "floorArea"), need(terms, "buildingHeight")];
  requirePositive(floorArea, "floor area");
  requirePositive(height, "building height");
  return 1000 * (effectiveArea(terms) / floorArea) * Math.pow(height / 2.5, 0.4);
}

/** ASHRAE 62.2 (from memory: check against your own copy): Q_inf = NL·wsf·A_F/1.44 in L/s. */
function credited(terms: InfiltrationTerms): number {
  const factor = need(terms, "weatherFactor");
  requireWithin(factor, 0.1, 3, "weather and shielding factor", "of the site, most lie between 0.3 and 1.2");
  return (3.6 * normalizedLeakage(terms) * factor * need(terms, "floorArea")) / 1.44;
}

const models = {
  "n50/20": ({ flow }: InfiltrationTerms) => flow / 20,
  basic,
  enhanced,
  "EN ISO 13789": standardized,
  "ASHRAE 62.2": credited,
  "normalized leakage": normalizedLeakage,
};

export type InfiltrationModel = keyof typeof models;

/** Published models of what a leakage means in use. */
export const infiltrationModels = Object.keys(models) as InfiltrationModel[];

/**
 * Infiltration in use, m³/h, from the flow at 50 Pa; "normalized leakage" gives NL, which has no unit. The models differ widely: they are estimates, and none of them is a test result.
 * Errors: a flow not above 0, a term that the model needs and that is not given (missing), a term outside the model's tables.
 * Source: the rule n50/20 (Sherman 1987, "Estimation of infiltration from leakage and climate indicators"); ASHRAE Handbook—Fundamentals 2021 ch. 16; EN ISO 13789:2017; ASHRAE 62.2.
 */
export function infiltrationFlow(model: InfiltrationModel, terms: InfiltrationTerms): number {
  requirePositive(terms.flow, "flow");
  return models[model](terms);
}
