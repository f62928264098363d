import { ensure, missing, requirePositive } from "../errors";
import { mean } from "../numbers";
import type { Technique } from "./curve";

/** One reading of the air leakage graph: induced pressure as a magnitude, Pa, and flow through the envelope, m³/h. */
export interface LeakageReading {
  readonly pressure: number;
  readonly flow: number;
  /** Its row in the input, counted from 1. */
  readonly row: number;
  /** When it was read, in any unit that the times of the baselines have too; absent where not given. */
  readonly time?: number | undefined;
  /** Standard uncertainty of the pressure, Pa, from what varies from reading to reading only. */
  readonly pressureUncertainty?: number | undefined;
  /** Standard uncertainty of the flow, in its unit, from what varies from reading to reading only. */
  readonly flowUncertainty?: number | undefined;
  /** True where the uncertainties are only assumed: they weigh the reading, and the scatter says how large they are. */
  readonly isAssumed?: boolean | undefined;
  /** Correlation of the errors of ln Δp and ln q, above −1 and below 1; 0 where not given. */
  readonly correlation?: number | undefined;
}

/** Logarithms of one quantity as deviations from their mean. */
interface CentredLogs {
  readonly mean: number;
  readonly deviations: readonly number[];
}

/** The least number of readings from which a line and its uncertainty follow. */
const fewestReadings = 3;

/** Errors: fewer than three readings (missing); a pressure or flow not above 0; pressures that do not vary. */
export function requireFittable(readings: readonly LeakageReading[]): void {
  const count = readings.length;
  if (count < fewestReadings) {
    throw missing("pressures", "tooFew", { least: fewestReadings, of: "readings", count });
  }
  for (const { pressure, flow, row } of readings) {
    requirePositive(pressure, "pressures", row);
    requirePositive(flow, "flows", row);
  }
  ensure(pressuresVary(readings), "pressures", "pressuresAlike");
}

/** True where at least two pressures differ. */
export function pressuresVary(readings: readonly LeakageReading[]): boolean {
  return readings.some(({ pressure }) => pressure !== readings[0]?.pressure);
}

/** ln(value/reference); where they are near, from their difference, which is exact, so that nearly equal readings keep their digits. */
function logRatio(value: number, reference: number): number {
  const difference = value - reference;
  return Math.abs(difference) < reference / 2 ? Math.log1p(difference / reference) : Math.log(value / reference);
}

/**
 * Natural logarithms of values above 0, centred: sums of raw squares would lose the digits that matter (Wilkinson's BIG column), and so would
 * logarithms of nearly equal values subtracted from each other.
 */
function centredLogs(values: readonly number[]): CentredLogs {
  const reference = values[0]!;
  const logs = values.map((value) => logRatio(value, reference));
  const shift = mean(logs);
  return { mean: Math.log(reference) + shift, deviations: logs.map((log) => log - shift) };
}

/**
 * Random error of a reading where it is neither stated nor found, standard: gusts of 1 Pa and 1 % of the flow. Only their ratio counts, since the scatter gives the size. Where the noise
 * of the pressure is known, that of the flow is what the fan gauge resolves and repeats, 0.5 %. Common practice, no source.
 */
export const assumedNoise = { pressure: 1, flow: 0.01, flowBesideKnownPressure: 0.005 };

/** Readings as the techniques see them: x = ln Δp and y = ln q about their plain means, with the standard uncertainties of the logarithms. */
export interface LogReadings {
  readonly meanX: number;
  readonly meanY: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** u(Δp)/Δp; absent where none were given. */
  readonly uncertaintyX?: readonly number[];
  /** u(q)/q; absent where none were given. */
  readonly uncertaintyY?: readonly number[];
  /** For errors in both, 0 where none is given. */
  readonly correlation?: readonly number[];
  /** True where an uncertainty is assumed: then the uncertainties only weigh the readings, and the scatter says how large they are. */
  readonly assumed?: boolean;
}

type Quantity = "pressure" | "flow";

/** Relative uncertainties of all readings; undefined where no reading has one. Errors: some have one and some not; one below 0 or not finite. */
function relative(readings: readonly LeakageReading[], quantity: Quantity): number[] | undefined {
  const key = `${quantity}Uncertainty` as const;
  if (readings.every((reading) => reading[key] === undefined)) return undefined;
  return readings.map((reading) => {
    const uncertainty = reading[key];
    if (uncertainty === undefined) throw missing(`${quantity} uncertainty`, "noUncertaintyInRow", { row: reading.row });
    const value = uncertainty / reading[quantity];
    ensure(value >= 0 && value < Infinity, `${quantity} uncertainty`, "zeroOrMore", undefined, reading.row);
    return value;
  });
}

function required(values: number[] | undefined, quantity: Quantity, technique: Technique): number[] {
  if (values !== undefined) return values;
  throw missing(`${quantity} uncertainty`, "techniqueNeeds", { technique, quantity });
}

function requireAboveZero(values: readonly number[], quantity: Quantity, readings: readonly LeakageReading[]): void {
  values.forEach((value, index) => {
    ensure(value > 0, `${quantity} uncertainty`, "aboveZero", undefined, readings[index]!.row);
  });
}

function requireOneAboveZero(
  ofPressures: readonly number[],
  ofFlows: readonly number[],
  readings: readonly LeakageReading[],
): void {
  readings.forEach(({ row }, index) => {
    ensure(ofPressures[index]! > 0 || ofFlows[index]! > 0, "flow uncertainty", "bothUncertaintiesZero", undefined, row);
  });
}

/**
 * The logarithms with the uncertainties that a technique needs. "weighted" does with those of the flows, takes the pressures' too, and goes by q² where
 * there are none; "weighted with expected exponent" takes both and assumes what is not stated; the weighted line of organic correlation and errors in both
 * need both.
 * Errors: an uncertainty that is needed is absent (missing), or 0 where it is a weight; a correlation outside −1 to 1.
 */
export function logReadings(readings: readonly LeakageReading[], technique: Technique): LogReadings {
  const { mean: meanX, deviations: x } = centredLogs(readings.map(({ pressure }) => pressure));
  const { mean: meanY, deviations: y } = centredLogs(readings.map(({ flow }) => flow));
  const plain = { meanX, meanY, x, y };
  if (technique === "ordinary" || technique === "organic correlation") return plain;

  const [ofPressures, ofFlows] = [relative(readings, "pressure"), relative(readings, "flow")];
  if (technique === "weighted") {
    if (ofPressures === undefined && ofFlows === undefined) return plain;
    const uncertaintyY = required(ofFlows, "flow", technique);
    requireAboveZero(uncertaintyY, "flow", readings);
    return { ...plain, uncertaintyY, ...(ofPressures !== undefined && { uncertaintyX: ofPressures }) };
  }
  if (technique === "weighted with expected exponent") {
    const uncertaintyX = ofPressures ?? readings.map(({ pressure }) => assumedNoise.pressure / pressure);
    const { flow, flowBesideKnownPressure } = assumedNoise;
    const uncertaintyY = ofFlows ?? readings.map(() => (ofPressures === undefined ? flow : flowBesideKnownPressure));
    requireOneAboveZero(uncertaintyX, uncertaintyY, readings);
    const assumed =
      ofPressures === undefined || ofFlows === undefined || readings.some(({ isAssumed }) => isAssumed === true);
    return { ...plain, uncertaintyX, uncertaintyY, assumed };
  }
  const uncertaintyX = required(ofPressures, "pressure", technique);
  const uncertaintyY = required(ofFlows, "flow", technique);
  if (technique === "weighted organic correlation") {
    requireAboveZero(uncertaintyX, "pressure", readings);
    requireAboveZero(uncertaintyY, "flow", readings);
    return { ...plain, uncertaintyX, uncertaintyY };
  }
  requireOneAboveZero(uncertaintyX, uncertaintyY, readings);
  const correlation = readings.map(({ correlation = 0, row }) => {
    ensure(Math.abs(correlation) < 1, "flow uncertainty", "correlation", undefined, row);
    return correlation;
  });
  return { ...plain, uncertaintyX, uncertaintyY, correlation };
}
