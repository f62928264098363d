import { assumedExponent, type TargetQuantity, type TargetTerms, type TestedBuilding } from "../../core/index";
import { needed, type Settings } from "./settings";
import { fromMethod, toMethod, type UnitSystem } from "../cells/units";

/** What the number of a limit measures, by its quantity; an air change rate is 1/h in every system. */
const measureOfQuantity: Readonly<Record<TargetQuantity, keyof UnitSystem | undefined>> = {
  "air change rate": undefined,
  "per envelope area": "permeability",
  "per floor area": "permeability",
  "leakage area per envelope area": "leakageAreaPerArea",
};

/** The unit of a limit's number, and the ways to the method's unit and back. */
interface LimitScale {
  readonly unit: string;
  readonly toMethod: (value: number) => number;
  readonly fromMethod: (value: number) => number;
}

export function limitScale(settings: Settings): LimitScale {
  const measure = measureOfQuantity[needed(settings, "quantity")];
  const { system } = settings;
  if (measure === undefined) return { unit: "1/h", toMethod: (value) => value, fromMethod: (value) => value };
  return {
    unit: system[measure],
    toMethod: (value) => toMethod(value, measure, system),
    fromMethod: (value) => fromMethod(value, measure, system),
  };
}

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
