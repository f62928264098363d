import {
  densityFormulas,
  exposedSides,
  flowBases,
  foundations,
  givenExponents,
  leakageAreaDefinitions,
  pressureSigns,
  shieldings,
  standards,
  targetQuantities,
  techniques,
  timeUnits,
  volumeConventions,
  windPlaces,
} from "../../core/index";
import { type UnitSystem, unitSystems } from "../cells/units";
import {
  atLeast,
  atMost,
  between,
  listOf,
  names,
  number,
  numberOr,
  oneOf,
  positive,
  type Reader,
  text,
  yesNo,
} from "./readers";

/** Results that a budget can be made for, by their symbols in TESTRESULT. */
export const budgetQuantities = [
  "n",
  "C",
  "C_L",
  "q50",
  "n50",
  "qE50",
  "qF50",
  "q_pr",
  "n_pr",
  "qE_pr",
  "qF_pr",
  "ELA4",
  "AL10",
  "EqLA10",
] as const;

export type BudgetQuantity = (typeof budgetQuantities)[number];

/** A label: how its value is read, what it measures where units matter, and whether 0 is a value or a blank cell that a host sent as 0. */
export interface Label<Value = unknown> {
  readonly read: Reader<Value>;
  readonly measures?: keyof UnitSystem;
  readonly zeroIsValue?: true;
  /** The words that it takes, where it takes words. */
  readonly words?: readonly string[];
}

const size = { read: positive };
const sizes = { read: listOf(positive) };
const measured = (measures: keyof UnitSystem) => ({ read: positive, measures });
const choice = <const Word extends string>(words: readonly Word[]) => ({ read: oneOf(words), words });
const limited = (lowest: number, highest: number, rule: Parameters<typeof between>[2]) => ({
  read: between(lowest, highest, rule),
});

const area = measured("area");
const flow = measured("flow");
const temperature = { read: number, measures: "temperature", zeroIsValue: true } as const;
const humidity = {
  read: between(0, 1, "fraction"),
  zeroIsValue: true,
} as const;
const smallFraction = { read: atMost(0.5, "smallFraction", positive) };
const smallFractions = { read: listOf(smallFraction.read) };
const day = { read: atMost(2_958_465, "date", positive) };
const freedom = { read: atLeast(1, "oneOrMore", positive) };
const yesOrNo = { read: yesNo, words: ["yes", "no"] };
const time = { read: number, zeroIsValue: true } as const;

/** The labels of a settings range. One list serves every function, so that one block on the sheet serves them all. */
export const labels = {
  volume: measured("volume"),
  "envelope area": area,
  "floor area": area,
  "volume convention": choice(volumeConventions),
  "indoor temperature": temperature,
  "outdoor temperature": temperature,
  "barometric pressure": measured("barometer"),
  altitude: { read: number, measures: "length", zeroIsValue: true },
  "indoor humidity": humidity,
  "outdoor humidity": humidity,
  "air density": choice(densityFormulas),
  "flow basis": choice(flowBases),
  "calibration density": measured("density"),
  "pressure sign": choice(pressureSigns),
  standard: choice(standards),
  technique: choice(techniques),
  "pressure uncertainty": size,
  "flow uncertainty": smallFraction,
  confidence: limited(0.5, 0.9999, "confidence"),
  "reference pressure": size,
  quantity: choice(targetQuantities),
  exponent: limited(givenExponents.lowest, givenExponents.highest, "exponent"),
  "flow degrees of freedom": freedom,
  columns: { read: text },
  "time unit": choice(timeUnits),
  tolerance: size,
  "shortest station": size,
  "gauge resolution": size,
  "fan coefficient": size,
  "fan exponent": size,
  "lowest fan pressure": size,
  "highest fan pressure": size,
  "zero flow below": { read: atLeast(0, "zeroOrMore"), zeroIsValue: true },
  "leakage area definition": choice(leakageAreaDefinitions),
  storeys: size,
  "shelter class": size,
  flue: yesOrNo,
  foundation: choice(foundations),
  "exposed sides": choice(exposedSides),
  shielding: choice(shieldings),
  "supply flow": flow,
  "extract flow": flow,
  "building height": measured("length"),
  "weather and shielding factor": size,
  "wind speed": { read: atLeast(0, "zeroOrMore"), measures: "speed", zeroIsValue: true },
  "wind place": choice(windPlaces),
  beaufort: { ...limited(0, 12, "beaufort"), zeroIsValue: true },
  "test date": day,
  "gauge certificate valid until": day,
  "flow device certificate valid until": day,
  "q50 of the other direction": flow,
  "low pressure reason": { read: text },
  openings: { read: names },
  "opening names": { read: names },
  "gauge accuracy": smallFraction,
  "gauge zero": size,
  "fan gauge accuracy": smallFraction,
  "fan gauge zero": size,
  "gauges of one calibration": yesOrNo,
  "fan pressure at lowest flow": sizes,
  "pivot fan pressure": sizes,
  "fan exponent uncertainty": smallFractions,
  "flow calibration uncertainty": smallFraction,
  "opening calibration uncertainty": smallFractions,
  "indoor temperature uncertainty": size,
  "outdoor temperature uncertainty": size,
  "barometer uncertainty": measured("barometer"),
  "humidity accuracy": smallFraction,
  "volume uncertainty": smallFraction,
  "envelope area uncertainty": smallFraction,
  "floor area uncertainty": smallFraction,
  "size degrees of freedom": freedom,
  "baseline uncertainty": size,
  "baseline degrees of freedom": freedom,
  "baseline before uncertainty": size,
  "baseline before degrees of freedom": freedom,
  "baseline after uncertainty": size,
  "baseline after degrees of freedom": freedom,
  "baseline shared": yesOrNo,
  "time of baseline before": time,
  "time of baseline after": time,
  "wind coefficient": size,
  "offset share": smallFraction,
  "extrapolation allowance": { read: numberOr(smallFraction.read, "none") },
  "budget quantity": choice(budgetQuantities),
  "monte carlo trials": limited(1000, 1e6, "trials"),
  "monte carlo seed": size,
  units: choice(unitSystems),
  headings: yesOrNo,
} satisfies Record<string, Label>;

export type Labels = typeof labels;
