import { ensure, requirePositive } from "../errors";

/** Discharge coefficient of a real hole or slot with sharp edges: common practice, no source. */
export const sharpHoleCoefficient = 0.6;

/**
 * Diameter of a round hole, m: √(4·A/(π·C_d)). With C_d 1 the hole has the area itself; a leakage area defined with C_d 1 belongs to a real hole of
 * A/0.6.
 * @param area m².
 * Errors: an area not above 0; C_d outside 0 to 1.
 * Source: plane geometry.
 */
export function holeDiameter(area: number, dischargeCoefficient = 1): number {
  requirePositive(area, "area");
  ensure(
    dischargeCoefficient > 0 && dischargeCoefficient <= 1,
    "discharge_coefficient",
    () => `above 0 and not more than 1 (got ${dischargeCoefficient})`,
  );
  return Math.sqrt((4 * area) / (Math.PI * dischargeCoefficient));
}
