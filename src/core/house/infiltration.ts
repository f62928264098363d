import { ensure, missing, requireNotNegative, requirePositive, requireWithin } from "../errors";
import { requireExponent } from "../leakage/curve";
import { assumedExponent } from "../leakage/expected-exponent";
import { leakageArea, leakageAreaTerms } from "../results/leakage-area";

/** ASHRAE Handbook—Fundamentals 2021 ch. 16, basic model: Q = A_L·√(C_s·ΔT + C_w·U²) in L/s, A_L in cm². */
function basic(terms: InfiltrationTerms): number {
  const { U, dT } = weather(terms);
  const stack = entry(basicStack, terms, "storeys");
  const wind = entry(entry(basicWind, terms, "shelter class"), terms, "storeys");
  return 3.6 * 1e4 * effectiveArea(terms) * Math.sqrt(stack * dT + wind * U ** 2);
}

/** ASHRAE Handbook—Fundamentals 2021 ch. 16, enhanced model: Q² = (c·C_s·ΔT^n)² + (c·C_w·(s·G·U)^2n)². */
function enhanced(terms: InfiltrationTerms): number {
  const { U, dT } = weather(terms);
  const { C, n } = coefficientOf(terms);
  const withFlue = need(terms, "flue") === "yes" ? 1 : 0;
  const storeys = need(terms, "storeys");
  const stack = entry(enhancedStack, terms, "storeys")[withFlue]!;
  const wind = entry(enhancedWind[need(terms, "foundation")], terms, "storeys")[withFlue]!;
  const shelter = entry(shelterFactor, terms, "shelter class")[withFlue * storeys]!;
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
  const { e: byShielding, f } = exposureTable[need(terms, "exposed sides")];
  const e = byShielding[need(terms, "shielding")];
  const { flow, "supply flow": supply = 0, "extract flow": extract = 0 } = terms;
  requireNotNegative(supply, "supply flow");
  requireNotNegative(extract, "extract flow");
  return (flow * e) / (1 + (f / e) * ((supply - extract) / flow) ** 2);
}

/** ASHRAE 62.2 (from memory: check against your own copy): NL = 1000·(ELA/A_F)·(H/2.5 m)^0.4. */
function normalizedLeakage(terms: InfiltrationTerms): number {
  const [floorArea, height] = [need(terms, "floor area"), need(terms, "building height")];
  requirePositive(floorArea, "floor area");
  requirePositive(height, "building height");
  return 1000 * (effectiveArea(terms) / floorArea) * Math.pow(height / 2.5, 0.4);
}

/** ASHRAE 62.2 (from memory: check against your own copy): Q_inf = NL·wsf·A_F/1.44 in L/s. */
function credited(terms: InfiltrationTerms): number {
  const factor = need(terms, "weather and shielding factor");
  requireWithin(factor, 0.1, 3, "weather and shielding factor", "weatherFactor");
  return (3.6 * normalizedLeakage(terms) * factor * need(terms, "floor area")) / 1.44;
}

const models = {
  "n50/20": ({ flow }: InfiltrationTerms) => flow / 20,
  basic,
  enhanced,
  "EN ISO 13789": standardized,
  "ASHRAE 62.2": credited,
  "normalized leakage": normalizedLeakage,
};

type InfiltrationModel = keyof typeof models;

/** Published models of what a leakage means in use. */
export const infiltrationModels = Object.keys(models) as InfiltrationModel[];

/**
 * Infiltration in use, m³/h, from the flow at 50 Pa; "normalized leakage" gives NL, which has no unit. The models differ widely: they are estimates, and none of them is a test result.
 * Errors: a flow not above 0, a term that the model needs and that is not given (missing), a term outside the model's tables.
 * Source: the rule n50/20 (Sherman 1987, "Estimation of infiltration from leakage and climate indicators"); ASHRAE Handbook—Fundamentals 2021 ch. 16; EN ISO 13789:2017; ASHRAE 62.2.
 * Example: infiltrationFlow("n50/20", { flow: 1000 }) → 50.0
 * Example: infiltrationFlow("EN ISO 13789", { flow: 1000, "exposed sides": "several", shielding: "moderate" }) → 70.0
 */
export function infiltrationFlow(model: InfiltrationModel, terms: InfiltrationTerms): number {
  requirePositive(terms.flow, "flow");
  return models[model](terms);
}

export const foundations = ["basement or slab", "crawl space"] as const;

export const exposedSides = ["several", "one"] as const;

export const shieldings = ["none", "moderate", "heavy"] as const;

/** A leakage at reference conditions and what drives it, by the names of the terms; a model says which of them it needs. */
export interface InfiltrationTerms {
  /** Flow at 50 Pa, m³/h. */
  readonly flow: number;
  /** n; 0.65 where not given. */
  readonly exponent?: number | undefined;
  /** Indoors minus outdoors, K. */
  readonly "temperature difference"?: number | undefined;
  /** At the weather station, m/s. */
  readonly "wind speed"?: number | undefined;
  /** Storeys, 1 to 3, in place of the height. */
  readonly storeys?: number | undefined;
  /** 1 (none) to 5 (very heavy). */
  readonly "shelter class"?: number | undefined;
  readonly flue?: "yes" | "no" | undefined;
  readonly foundation?: (typeof foundations)[number] | undefined;
  readonly "exposed sides"?: (typeof exposedSides)[number] | undefined;
  readonly shielding?: (typeof shieldings)[number] | undefined;
  /** Mechanical ventilation, m³/h; none where not given. */
  readonly "supply flow"?: number | undefined;
  readonly "extract flow"?: number | undefined;
  /** m² */
  readonly "floor area"?: number | undefined;
  /** Between the lowest and the highest point above ground, m. */
  readonly "building height"?: number | undefined;
  readonly "weather and shielding factor"?: number | undefined;
}

function need<Name extends keyof InfiltrationTerms>(
  terms: InfiltrationTerms,
  name: Name,
): NonNullable<InfiltrationTerms[Name]> {
  const value = terms[name];
  if (value === undefined) throw missing(name, "notGiven");
  return value;
}

/** The entry of a table for a whole number counted from 1. */
function entry<Value>(table: readonly Value[], terms: InfiltrationTerms, name: "storeys" | "shelter class"): Value {
  const number = need(terms, name);
  const value = table[number - 1];
  ensure(value !== undefined, name, "wholeNumber", { lowest: 1, highest: table.length, got: number });
  return value;
}

function coefficientOf({ flow, exponent = assumedExponent }: InfiltrationTerms): { C: number; n: number } {
  requireExponent(exponent, "exponent");
  return { C: flow / Math.pow(50, exponent), n: exponent };
}

/** Effective leakage area at 4 Pa, m². */
function effectiveArea(terms: InfiltrationTerms): number {
  const { C, n } = coefficientOf(terms);
  return leakageArea(C, n, leakageAreaTerms["effective 4 Pa"]);
}

/** Wind speed and the size of the temperature difference: stack flow has the same size in summer. */
function weather(terms: InfiltrationTerms): { U: number; dT: number } {
  const U = need(terms, "wind speed");
  const dT = Math.abs(need(terms, "temperature difference"));
  requireWithin(U, 0, 100, "wind speed", "windSpeed");
  requireWithin(dT, 0, 100, "temperature difference", "temperatureDifference");
  return { U, dT };
}

// ASHRAE Handbook—Fundamentals 2021 (SI) ch. 16, tables 4 to 10: coefficients of the basic and the enhanced model. Rows by storeys 1, 2, 3 unless a line says otherwise.

/** Basic model, stack: C_s, (L/s)²/(cm⁴·K), by storeys. */
const basicStack = [0.000145, 0.00029, 0.000435];

/** Basic model, wind: C_w, (L/s)²/(cm⁴·(m/s)²), by shelter class 1 to 5, then storeys. */
const basicWind = [
  [0.000319, 0.00042, 0.000494],
  [0.000246, 0.000325, 0.000382],
  [0.000174, 0.000231, 0.000271],
  [0.000104, 0.000137, 0.000161],
  [0.000032, 0.000042, 0.000049],
];

/** Enhanced model, wind speed multiplier G by storeys. */
const windMultiplier = [0.48, 0.59, 0.67];

/** Enhanced model, stack: C_s, (Pa/K)^n, by storeys; without and with a flue. */
const enhancedStack = [
  [0.054, 0.069],
  [0.078, 0.089],
  [0.098, 0.107],
];

/** Enhanced model, wind: C_w, (Pa·s²/m²)^n, by foundation, then storeys; without and with a flue. */
const enhancedWind = {
  "basement or slab": [
    [0.156, 0.142],
    [0.17, 0.156],
    [0.17, 0.167],
  ],
  "crawl space": [
    [0.128, 0.128],
    [0.142, 0.142],
    [0.151, 0.154],
  ],
};

/** Enhanced model, shelter factor s by shelter class 1 to 5; without a flue, then with the flue of 1, 2, 3 storeys. */
const shelterFactor = [
  [1, 1.1, 1.07, 1.06],
  [0.9, 1.02, 0.98, 0.97],
  [0.7, 0.86, 0.81, 0.79],
  [0.5, 0.7, 0.64, 0.61],
  [0.3, 0.54, 0.47, 0.43],
];
