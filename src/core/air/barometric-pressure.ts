import { requireWithin } from "../errors";
import { standardPressure } from "./density";

/**
 * Station pressure, Pa, at an altitude in m: p = p0·(1 − 2.25577e-5·Z)^5.2559, p0 the pressure at sea level (101 325 Pa, or a
 * weather report's reduced value).
 * Errors: altitude outside −500…5 000 m, sea-level pressure outside 85 000…110 000 Pa.
 * Source: ASHRAE Handbook—Fundamentals 2021 ch. 1 eqn. 3.
 * Example: barometricPressure(1000) → 89875
 */
export function barometricPressure(altitude: number, seaLevelPressure: number = standardPressure): number {
  requireWithin(altitude, -500, 5_000, "altitude", "altitude");
  requireWithin(seaLevelPressure, 85_000, 110_000, "sea level pressure", "barometer");
  return seaLevelPressure * Math.pow(1 - 2.25577e-5 * altitude, 5.2559);
}
