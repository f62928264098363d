import { requirePositive } from "../errors";
import { usualPressure } from "../constants";
import { allowedFlow, inTargetQuantity, type TargetTerms } from "../judgement/target";
import { assumedExponent } from "../leakage/expected-exponent";
import { atMost } from "../numbers";
import {
  byDefinition,
  type LeakageAreaDefinition,
  leakageAreaPerFlow,
  requireDischargeCoefficient,
} from "../results/leakage-area";
import type { TestedBuilding } from "../results/specific-leakage";

/** What separates a house from its limit; flows at 50 Pa, m³/h, areas m², diameter m. */
export interface TargetGap {
  readonly isMet: boolean;
  /** Largest flow that the limit allows. */
  readonly allowed: number;
  /** The flow in the quantity of the limit, at its pressure: 1/h, m³/(h·m²) or cm²/m². */
  readonly inQuantity: number;
  /** Flow to take away; 0 where the limit is met. */
  readonly toRemove: number;
  readonly toRemovePercent: number;
  /** Flow in hand below the limit; 0 where it is not met. */
  readonly inHand: number;
  /** Of what the limit allows. */
  readonly inHandPercent: number;
  /** Leakage areas of the flow to take away, by definition. */
  readonly leakageAreas: Record<LeakageAreaDefinition, number>;
  /** What one could find: the opening that passes the flow to take away at 50 Pa with C_d 0.6, and its diameter if it is one round hole. */
  readonly realArea: number;
  readonly realDiameter: number;
}

/**
 * From a flow at 50 Pa to its limit: what is to be sealed, as flow, leakage areas and a hole, or the margin in hand. The areas assume that what is
 * sealed leaks with the exponent of the house.
 * Errors: a flow not above 0; those of `allowedFlow`.
 * Source: ISO 9972:2015 and ASTM E779-19 for the leakage areas; orifice equation, C_d 0.6 common practice.
 * Example: targetGap(300, 0.6, { quantity: "air change rate" }, { volume: 450 }) → { isMet: false, allowed: 270.0, toRemove: 30.0, realArea: 0.0015, … }
 */
export function targetGap(
  flow: number,
  limit: number,
  terms: TargetTerms,
  building: TestedBuilding,
  exponent = assumedExponent,
): TargetGap {
  requirePositive(flow, "flow");
  const allowed = allowedFlow(limit, terms, building, exponent);
  const isMet = atMost(flow, allowed);
  const toRemove = isMet ? 0 : flow - allowed;
  const inHand = isMet ? Math.max(0, allowed - flow) : 0;
  const hole = { pressure: usualPressure, dischargeCoefficient: sharpHoleCoefficient };
  const realArea = leakageAreaPerFlow(hole) * toRemove;
  return {
    isMet,
    allowed,
    inQuantity: inTargetQuantity(flow, terms, building, exponent),
    toRemove,
    toRemovePercent: (100 * toRemove) / flow,
    inHand,
    inHandPercent: (100 * inHand) / allowed,
    leakageAreas: byDefinition(
      (its) => leakageAreaPerFlow(its) * toRemove * Math.pow(its.pressure / usualPressure, exponent),
    ),
    realArea,
    realDiameter: realArea > 0 ? holeDiameter(realArea) : 0,
  };
}

/** Discharge coefficient of a real hole or slot with sharp edges: common practice, no source. */
const sharpHoleCoefficient = 0.6;

/**
 * Diameter of a round hole, m: √(4·A/(π·C_d)). With C_d 1 the hole has the area itself; a leakage area defined with C_d 1 belongs to a real hole of
 * A/0.6.
 * @param area m².
 * Errors: an area not above 0; C_d outside 0 to 1.
 * Source: plane geometry.
 * Example: holeDiameter(0.0015, 0.6) → 0.0564
 */
export function holeDiameter(area: number, dischargeCoefficient = 1): number {
  requirePositive(area, "area");
  requireDischargeCoefficient(dischargeCoefficient);
  return Math.sqrt((4 * area) / (Math.PI * dischargeCoefficient));
}
