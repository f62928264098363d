/**
 * What the method calls the quantities that it refuses. A caller may know a term by another name, as an argument, a setting or a column: it says so
 * with `called`.
 */
export type Term =
  | "actual density"
  | "altitude"
  | "after"
  | "amounts"
  | "area"
  | "areas"
  | "at"
  | "barometric pressure"
  | "baseline"
  | "baseline after"
  | "baseline before"
  | "before"
  | "building height"
  | "calibration density"
  | "coefficient"
  | "coefficients"
  | "common uncertainty"
  | "confidence"
  | "corners"
  | "count"
  | "coverage factor"
  | "decimals"
  | "degree hours"
  | "degrees after"
  | "degrees before"
  | "degrees of freedom"
  | "depressurization"
  | "direction"
  | "discharge coefficient"
  | "envelope area"
  | "expanded uncertainty"
  | "exponent"
  | "exponents"
  | "exposed sides"
  | "extract flow"
  | "fan pressures"
  | "floor area"
  | "flow"
  | "flow after"
  | "flow before"
  | "flow degrees of freedom"
  | "flow uncertainty"
  | "flows"
  | "flue"
  | "foundation"
  | "from"
  | "heat capacity"
  | "height"
  | "highest"
  | "indoor humidity"
  | "indoor temperature"
  | "leakage area definition"
  | "leakages"
  | "length"
  | "length tolerance"
  | "log"
  | "lowest"
  | "measuring height"
  | "neutral height"
  | "openings"
  | "other coverage factor"
  | "other expanded uncertainty"
  | "other result"
  | "outdoor humidity"
  | "outdoor temperature"
  | "pressure"
  | "pressure uncertainty"
  | "pressures"
  | "pressurization"
  | "prior deviation"
  | "prior mean"
  | "probability"
  | "rated pressures"
  | "reading"
  | "readings"
  | "reference pressure"
  | "relative humidity"
  | "repairs"
  | "result"
  | "roof rise"
  | "sea level pressure"
  | "shelter class"
  | "shielding"
  | "shortest station"
  | "speed"
  | "standard uncertainty"
  | "storey height"
  | "storeys"
  | "supply flow"
  | "table"
  | "target"
  | "technique"
  | "temperature"
  | "temperature difference"
  | "time of baseline after"
  | "time unit"
  | "times"
  | "to"
  | "tolerance"
  | "uncertainties"
  | "uncertainty after"
  | "uncertainty before"
  | "value"
  | "volume"
  | "weather and shielding factor"
  | "width"
  | "wind speed"
  | "zero flow below";

interface Got {
  readonly got: number;
}

interface Range extends Got {
  readonly lowest: number;
  readonly highest: number;
}

interface Pressure {
  readonly pressure: number;
}

/** The rules of the method by their codes, each with what it knows of the input that breaks it; pressures in Pa. */
export interface Rules {
  notGiven: undefined;
  /** Fewer of something than the method needs. */
  tooFew: { readonly least: number; readonly of: string; readonly count: number };
  tooLarge: undefined;
  neededWith: { readonly other: string };
  twice: { readonly what: string | number };
  // Of a single number.
  aboveZero: Got | undefined;
  zeroOrMore: Got | undefined;
  oneOrMore: undefined;
  aboveZeroUpTo: Got & { readonly highest: number };
  notZero: undefined;
  wholeNumber: Range;
  altitude: Range;
  barometer: Range;
  temperature: Range;
  temperatureDifference: Range;
  windSpeed: Range;
  weatherFactor: Range;
  measuringHeight: Range;
  neutralHeight: Range;
  exponent: Range;
  exponentUncertainty: undefined;
  heatCapacity: undefined;
  confidence: undefined;
  probability: undefined;
  fraction: Got | undefined;
  smallFraction: Got | undefined;
  lengthTolerance: undefined;
  allCommon: undefined;
  belowCommonPart: { readonly uncertainty: number; readonly common: number };
  // The envelope.
  sameCorner: { readonly corner: number; readonly other: number };
  wallsMeet: { readonly wall: number; readonly other: number };
  wallTurnsBack: { readonly corner: number };
  cornersOnLine: undefined;
  flatRoofRises: undefined;
  noRoofRise: { readonly roof: string };
  noVolumeLeft: undefined;
  // Pressures and their baseline.
  belowBaseline: Pressure & { readonly baseline: number };
  otherSign: Pressure & { readonly first: number };
  otherDirection: Pressure & { readonly direction: "depressurization" | "pressurization" };
  baselineOrder: undefined;
  timeOutsideBaselines: undefined;
  // The flow device and the gauge.
  densityUnits: { readonly calibration: number; readonly actual: number };
  outsideCalibration: { readonly reading: number; readonly lowest: number; readonly highest: number };
  pointFalls: { readonly value: number };
  // A log.
  timeNotRising: { readonly time: number };
  timeUnitUnclear: { readonly interval: number };
  // The leakage curve.
  pressuresAlike: undefined;
  flowsAlike: undefined;
  flowNotRising: undefined;
  lineNotSettled: { readonly steps: number };
  noUncertaintyInRow: { readonly row: number };
  techniqueNeeds: { readonly technique: string; readonly quantity: "pressure" | "flow" };
  bothUncertaintiesZero: undefined;
  correlation: undefined;
  // Results, limits and verdicts.
  pressuresNotApart: { readonly above: number; readonly below: number };
  noResult: undefined;
  limitNeedsDefinition: undefined;
  definitionFixes: { readonly definition: string; readonly fixed: number } & Got;
  ruleTakesUnrounded: { readonly rule: string };
  // Repair, planning and use.
  likelyOutsideRange: { readonly likely: number | undefined; readonly low: number; readonly high: number };
  repairsExceedFlow: { readonly left: number };
  highestNotAbove: { readonly lowest: number } & Got;
  // Units.
  unknownUnit: { readonly unit: string; readonly like?: readonly string[] };
  otherQuantity: { readonly from: string; readonly to: string; readonly is: string; readonly wanted: string };
  belowAbsoluteZero: Got;
}

/** How a call knows the term of an error, as far as it differs from the method's own name. */
export interface Place {
  readonly argument?: string;
  /** The label of a setting that holds the term. */
  readonly setting?: string;
  /** Counted from 1 within the argument, as a person counts. */
  readonly row?: number | undefined;
}

/**
 * The one error of the method: data, from which the cell layer makes the sentence. `kind` "invalid": the input breaks a rule; "missing": there is too little
 * input so far, the form is half filled.
 */
export class MethodError extends Error {
  constructor(
    readonly kind: "invalid" | "missing",
    readonly term: string,
    readonly code: string,
    readonly data: object | undefined,
    readonly place: Place,
  ) {
    // For whoever reads a log of the program; a person at the sheet reads the cell layer's sentence.
    super(`${term}: ${code}`);
  }

  /** The same error as a caller knows its place. */
  called(place: Place): MethodError {
    return new MethodError(this.kind, this.term, this.code, this.data, { ...this.place, ...place });
  }
}

/** What a rule asks for beside its code: its data, where it has any, and the row. */
export type Details<Data> = undefined extends Data ? [data?: Data, row?: number] : [data: Data, row?: number];

/** An input that breaks a rule. */
export function invalid<Code extends keyof Rules>(
  term: Term,
  code: Code,
  ...details: Details<Rules[Code]>
): MethodError;
export function invalid(term: Term, code: keyof Rules, data?: object, row?: number): MethodError {
  return new MethodError("invalid", term, code, data, { row });
}

/** An input that is not there yet. */
export function missing<Code extends keyof Rules>(
  term: Term,
  code: Code,
  ...details: Details<Rules[Code]>
): MethodError;
export function missing(term: Term, code: keyof Rules, data?: object, row?: number): MethodError {
  return new MethodError("missing", term, code, data, { row });
}

/** Throws "invalid" unless the condition holds; NaN fails every comparison, so it is refused too. */
export function ensure<Code extends keyof Rules>(
  holds: boolean,
  term: Term,
  code: Code,
  ...details: Details<Rules[Code]>
): asserts holds;
export function ensure(holds: boolean, term: Term, code: keyof Rules, data?: object, row?: number): asserts holds {
  if (!holds) throw new MethodError("invalid", term, code, data, { row });
}

/** What the input gives, undefined where it breaks a rule of the method. */
export function whereSound<Value>(compute: () => Value): Value | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof MethodError) return undefined;
    throw error;
  }
}

/** The rules that are a range. */
type RangeRule = { [Code in keyof Rules]: Rules[Code] extends Range ? Code : never }[keyof Rules];

/** Throws "invalid" unless the number is finite and within [lowest, highest]. */
export function requireWithin(
  got: number,
  lowest: number,
  highest: number,
  term: Term,
  code: RangeRule,
  row?: number,
): void {
  ensure(got >= lowest && got <= highest, term, code, { lowest, highest, got }, row);
}

/** Throws "invalid" unless the number is zero or more and finite. */
export function requireNotNegative(got: number, term: Term, row?: number): void {
  ensure(got >= 0 && got < Infinity, term, "zeroOrMore", { got }, row);
}

/** Throws "invalid" unless the number is above zero and finite. */
export function requirePositive(got: number, term: Term, row?: number): void {
  ensure(got > 0 && got < Infinity, term, "aboveZero", { got }, row);
}
