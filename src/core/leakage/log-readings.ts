import { MethodError, ensure } from "../errors";
import { assumedNoise } from "./assumed-noise";
import type { Technique } from "./curve";
import { centredLogs, type LeakageReading } from "./readings";

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
    if (uncertainty === undefined)
      throw new MethodError("missing", `${quantity}_uncertainty`, `row ${reading.row} has none`);
    const value = uncertainty / reading[quantity];
    ensure(value >= 0 && value < Infinity, `${quantity}_uncertainty`, "must be 0 or more, standard", reading.row);
    return value;
  });
}

function required(values: number[] | undefined, quantity: Quantity, technique: Technique): number[] {
  if (values !== undefined) return values;
  throw new MethodError(
    "missing",
    `${quantity}_uncertainty`,
    `the technique "${technique}" needs the standard uncertainty of every ${quantity}`,
  );
}

function requireAboveZero(values: readonly number[], quantity: Quantity, readings: readonly LeakageReading[]): void {
  values.forEach((value, index) => {
    const rule = "must be above 0: it is the weight of the reading";
    ensure(value > 0, `${quantity}_uncertainty`, rule, readings[index]!.row);
  });
}

function requireOneAboveZero(
  ofPressures: readonly number[],
  ofFlows: readonly number[],
  readings: readonly LeakageReading[],
): void {
  readings.forEach(({ row }, index) => {
    const rule = "the uncertainties of a pressure and its flow cannot both be 0";
    ensure(ofPressures[index]! > 0 || ofFlows[index]! > 0, "flow_uncertainty", rule, row);
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
    ensure(Math.abs(correlation) < 1, "flow_uncertainty", "a correlation must lie between −1 and 1", row);
    return correlation;
  });
  return { ...plain, uncertaintyX, uncertaintyY, correlation };
}
