import { ensure, MethodError, requireWithin } from "../errors";
import { assumedExponent } from "../leakage/assumed-exponent";
import { requireExponent } from "../leakage/exponent";
import { leakageArea, leakageAreaTerms } from "../results/leakage-area";

export const foundations = ["basement or slab", "crawl space"] as const;

export const exposedSides = ["several", "one"] as const;

export const shieldings = ["none", "moderate", "heavy"] as const;

/** A leakage at reference conditions and what drives it; a model says which of the terms it needs. */
export interface InfiltrationTerms {
  /** Flow at 50 Pa, m³/h. */
  readonly flow: number;
  /** n; 0.65 where not given. */
  readonly exponent?: number | undefined;
  /** Indoors minus outdoors, K. */
  readonly temperatureDifference?: number | undefined;
  /** At the weather station, m/s. */
  readonly windSpeed?: number | undefined;
  /** Storeys, 1 to 3, which stand for the height. */
  readonly storeys?: number | undefined;
  /** 1 (none) to 5 (very heavy). */
  readonly shelterClass?: number | undefined;
  readonly flue?: boolean | undefined;
  readonly foundation?: (typeof foundations)[number] | undefined;
  readonly exposedSides?: (typeof exposedSides)[number] | undefined;
  readonly shielding?: (typeof shieldings)[number] | undefined;
  /** Mechanical ventilation, m³/h; none where not given. */
  readonly supply?: number | undefined;
  readonly extract?: number | undefined;
  /** m² */
  readonly floorArea?: number | undefined;
  /** Between the lowest and the highest point above ground, m. */
  readonly buildingHeight?: number | undefined;
  readonly weatherFactor?: number | undefined;
}

/** A term as a person types it: the name of the argument or of the setting. */
const termNames: Partial<Record<keyof InfiltrationTerms, string>> = {
  temperatureDifference: "temperature_difference",
  windSpeed: "wind_speed",
  shelterClass: "shelter class",
  exposedSides: "exposed sides",
  floorArea: "floor area",
  buildingHeight: "building height",
  weatherFactor: "weather and shielding factor",
};

export function need<Name extends keyof InfiltrationTerms>(
  terms: InfiltrationTerms,
  name: Name,
): NonNullable<InfiltrationTerms[Name]> {
  const value = terms[name];
  if (value === undefined) throw new MethodError("missing", termNames[name] ?? name, "the model needs it");
  return value;
}

/** The entry of a table for a whole number counted from 1. */
export function entry<Value>(
  table: readonly Value[],
  terms: InfiltrationTerms,
  name: "storeys" | "shelterClass",
): Value {
  const value = table[need(terms, name) - 1];
  ensure(value !== undefined, termNames[name] ?? name, `the model knows 1 to ${table.length}, whole numbers`);
  return value;
}

export function coefficientOf({ flow, exponent = assumedExponent }: InfiltrationTerms): { C: number; n: number } {
  requireExponent(exponent, "exponent");
  return { C: flow / Math.pow(50, exponent), n: exponent };
}

/** Effective leakage area at 4 Pa, m². */
export function effectiveArea(terms: InfiltrationTerms): number {
  const { C, n } = coefficientOf(terms);
  return leakageArea(C, n, leakageAreaTerms["effective 4 Pa"]);
}

/** Wind speed and the size of the temperature difference: stack flow has the same size in summer. */
export function weather(terms: InfiltrationTerms): { U: number; dT: number } {
  const U = need(terms, "windSpeed");
  const dT = Math.abs(need(terms, "temperatureDifference"));
  requireWithin(U, 0, 100, "wind_speed", "between 0 and 100 m/s");
  requireWithin(dT, 0, 100, "temperature_difference", "not more than 100 K");
  return { U, dT };
}
