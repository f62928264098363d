import { exponentWithLimits, fitLeakage, flowWithLimits, techniques, type Direction } from "../../core/index";
import { choice, optionalNumber } from "../../functions/cells/cells";
import { asMagnitudes, pairedReadings } from "../../functions/cells/pairs";
import { withUncertainties } from "../../functions/leakage/fit";
import type { DrawnTest } from "./drawn-test";
import type { CallPlace } from "./whole-test";

/**
 * A call of LEAKAGEFIT computed once more from the arguments that it was given, for its graph: induced pressures and flows through the envelope, in the sheet's unit.
 * Errors: MethodError, as the function itself.
 */
export function fittedCurveOf(place: CallPlace, given: readonly unknown[]): DrawnTest {
  const [pressures, flows, technique, confidence, include, ofPressure, ofFlow] = given;
  const named = choice(technique, techniques, "technique", "ordinary");
  const signed = pairedReadings(pressures, flows, include);
  const readings = asMagnitudes(signed);
  const fit = fitLeakage(withUncertainties(readings, named, ofPressure, ofFlow), named);
  const level = optionalNumber(confidence, "confidence") || 0.95;
  // Signed pressures are indoors minus outdoors; those above 0 may be magnitudes.
  const direction: Direction | undefined = (signed.used[0]?.pressure ?? 0) < 0 ? "depressurization" : undefined;
  const flowAt = (pressure: number) => flowWithLimits(fit, pressure, level);
  const q50 = flowAt(50);
  return {
    ...place,
    direction,
    flowUnit: undefined,
    confidence: level,
    atReference: false,
    fit,
    line: {
      name: direction ?? "leakage curve",
      look: direction ?? "other",
      used: readings.used,
      excluded: readings.excluded.filter(({ pressure, flow }) => pressure > 0 && flow > 0),
      exponent: exponentWithLimits(fit, level),
      coefficient: fit.coefficient,
      determination: fit.determination,
      q50,
      flowAt,
    },
    results: [{ quantity: "q50", unit: "", value: q50.value, flow: q50.value, pressure: 50 }],
  };
}
