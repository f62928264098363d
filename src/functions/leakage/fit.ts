import { fitLeakage, techniques, type LeakageFit } from "../../core/index";
import { choice } from "../cells/cells";
import { asMagnitudes, pairedReadings } from "../cells/pairs";
import { withUncertainties } from "../cells/uncertainties";

export function fitOf(
  pressures: unknown,
  flows: unknown,
  technique: unknown,
  include: unknown,
  pressureUncertainty?: unknown,
  flowUncertainty?: unknown,
): LeakageFit {
  const named = choice(technique, techniques, "technique", "ordinary");
  const readings = asMagnitudes(pairedReadings(pressures, flows, include));
  return fitLeakage(withUncertainties(readings, named, pressureUncertainty, flowUncertainty), named);
}
