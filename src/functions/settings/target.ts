import { assumedExponent, type TargetQuantity, type TargetTerms, type TestedBuilding } from "../../core/index";
import { needed, type Settings } from "./settings";
import type { UnitSystem } from "../cells/units";

/** What the number of a limit measures, by its quantity; an air change rate is 1/h in every system. */
export const measureOfQuantity: Readonly<Record<TargetQuantity, keyof UnitSystem | undefined>> = {
  "air change rate": undefined,
  "per envelope area": "permeability",
  "per floor area": "permeability",
  "leakage area per envelope area": "leakageAreaPerArea",
};

/** The sizes of the building that the settings give. */
export function buildingIn({
  volume,
  "envelope area": envelopeArea,
  "floor area": floorArea,
}: Settings): TestedBuilding {
  return { volume, envelopeArea, floorArea };
}

/** The terms of the limit that the settings name; the quantity is never guessed. */
export function targetTermsIn(settings: Settings): TargetTerms {
  return {
    quantity: needed(settings, "quantity"),
    pressure: settings["reference pressure"],
    definition: settings["leakage area definition"],
  };
}

/** The exponent that carries a limit from its pressure to 50 Pa; assumed where none is given. */
export function exponentIn(settings: Settings): number {
  return settings.exponent ?? assumedExponent;
}
