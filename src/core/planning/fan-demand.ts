import { densityCorrection } from "../air/viscosity";
import { densityOfBoth, type TestAir } from "../air/density";
import { airAtDevice, type Direction } from "../direction";
import { missing, MethodError, requirePositive } from "../errors";
import { atMost } from "../numbers";
import { leakageFlow } from "../leakage/curve";
import { referenceCoefficient, referenceConditions, type Standard } from "../leakage/reference-conditions";
import { deviceDensityFactor, fanFlow, type FlowCalibration } from "../readings/fan-flow";

/** An opening of the flow device, from its calibration certificate; c in m³/h. */
export interface Opening extends FlowCalibration {
  readonly name: string;
  readonly highest: number;
  /** Row on the sheet, counted from 1. */
  readonly row: number;
}

/** What the flow device must do in one direction; flows in m³/h. */
export interface FanDemand {
  readonly throughEnvelope: number;
  /** At the density of the air at the device. */
  readonly atFan: number;
  /** What the device shows by its calibration. */
  readonly indicated: number;
}

/** The house to be tested, at reference conditions. */
export interface ExpectedLeakage {
  /** Flow at 50 Pa, m³/h. */
  readonly at50: number;
  readonly exponent: number;
}

/**
 * Flow that the fan must give to hold a pressure: the leakage curve turned from reference to test conditions, then from the envelope to the device.
 * It is the way back through the calculation of a test, so that a test with this reading gives the expected leakage.
 * @param pressure Induced pressure, Pa.
 * @param calibrationDensity kg/m³
 * Errors: flow or pressure not above 0; those of the air.
 * Source: ISO 9972:2015, air leakage rate and C_L; ASTM E779-19.
 * Example: fanDemand({ at50: 300, exponent: 0.65 }, 60, "depressurization", { temperature: { indoor: 20, outdoor: 0 }, humidity: { indoor: 0.5, outdoor: 0.5 },
 *   barometricPressure: 101_325 }, { standard: "ISO 9972", calibrationDensity: 1.2041 }) → { throughEnvelope: 329.6, atFan: 354.9, indicated: 354.1 }
 */
export function fanDemand(
  { at50, exponent }: ExpectedLeakage,
  pressure: number,
  direction: Direction,
  air: TestAir,
  { standard, calibrationDensity }: { readonly standard: Standard; readonly calibrationDensity: number },
): FanDemand {
  requirePositive(pressure, "highest");
  const density = densityOfBoth(air);
  const conditions = referenceConditions(standard, direction, density, air.temperature);
  const toReference = referenceCoefficient(1, exponent, conditions);
  const coefficient = at50 / Math.pow(50, exponent) / toReference;
  requirePositive(coefficient, "target");
  const throughEnvelope = leakageFlow(coefficient, exponent, pressure);
  const atFan = throughEnvelope / densityCorrection(direction, density);
  const device = { calibration: calibrationDensity, actual: airAtDevice(direction, density) };
  return { throughEnvelope, atFan, indicated: atFan / deviceDensityFactor(device) };
}

/** An opening that gives the flow, and the pressure that the device then shows, Pa. */
export interface FittingOpening {
  readonly opening: Opening;
  readonly fanPressure: number;
}

/** Names the row in the table of openings instead of the argument of the calibration. */
function inOpening(error: unknown, row: number): unknown {
  return error instanceof MethodError ? error.called({ argument: "openings", row }) : error;
}

/** Where a flow lies in an opening's calibrated range: its fan pressure, or below or above the range. */
function fanPressureAt(flow: number, opening: Opening): number {
  try {
    requirePositive(opening.highest, "highest");
    const most = fanFlow(opening.highest, opening);
    return opening.highest * Math.pow(flow / most, 1 / opening.exponent);
  } catch (error) {
    throw inOpening(error, opening.row);
  }
}

/**
 * The opening that gives an indicated flow within its calibrated range. Where several do, it is the one with the highest fan pressure, the smallest, whose range reaches
 * furthest down to the lower pressures of the test. Where none does, says whether the flow lies above all ranges, below all, or between two.
 * Errors: openings that break the rules of `fanFlow`, none at all (missing).
 * Source: the device's calibration certificate.
 * Example: fittingOpening(300, [{ name: "A", coefficient: 20, exponent: 0.5, lowest: 25, highest: 300, row: 1 }]) → { fanPressure: 225.0, … }
 */
export function fittingOpening(
  flow: number,
  openings: readonly Opening[],
): FittingOpening | "above" | "below" | "between" {
  if (openings.length === 0) throw missing("openings", "notGiven");
  const found = openings.map((opening) => ({ opening, fanPressure: fanPressureAt(flow, opening) }));
  const fitting = found
    .filter(
      ({ opening, fanPressure }) => atMost(opening.lowest ?? 0, fanPressure) && atMost(fanPressure, opening.highest),
    )
    .sort((one, other) => other.fanPressure - one.fanPressure)[0];
  if (fitting !== undefined) return fitting;
  const tooMuch = found.filter(({ opening, fanPressure }) => fanPressure > opening.highest).length;
  return tooMuch === found.length ? "above" : tooMuch === 0 ? "below" : "between";
}
