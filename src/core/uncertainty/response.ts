import { densityResponse, viscosityResponse } from "./air-response";
import { correctsViscosity } from "../leakage/reference-conditions";
import { readingSensitivities } from "../leakage/sensitivities";
import { extrapolationHalfWidth } from "./extrapolation";
import type { ModelReading, PreparedTest } from "./model";
import type { Output } from "./output";
import type { Effect, Source } from "./source";

/** Derivatives of one output to each reading: of ln q (or n) to ln q_i and to ln Δp_i. */
export interface ReadingResponse {
  readonly toFlow: readonly number[];
  readonly toPressure: readonly number[];
}

/** ℓ, the ln Δp at which the line as tested is read for the output: ln p − L + 2M at reference conditions, 0 for C. */
export function logPressureOf(test: PreparedTest, output: Output): number {
  return output.of === "flow" ? Math.log(output.pressure) - test.logDensity + 2 * test.logViscosity : 0;
}

/** How an output answers to each reading. */
export function readingResponse(test: PreparedTest, output: Output): ReadingResponse {
  const each = readingSensitivities(test.fit, test.points)(logPressureOf(test, output));
  return output.of === "exponent"
    ? { toFlow: each.map((one) => one.exponentToFlow), toPressure: each.map((one) => one.exponentToPressure) }
    : { toFlow: each.map((one) => one.flowToFlow), toPressure: each.map((one) => one.flowToPressure) };
}

/** What an error does to one reading: change of P − B in Pa, the gauge's gain apart, and of ln q. */
function pressureChange(effect: Effect, reading: ModelReading, test: PreparedTest): number {
  const share = test.baselineAfter === undefined ? 1 : 0.5;
  switch (effect) {
    case "offset":
      return 1;
    case "baseline":
      return -1;
    case "baselineBefore":
      return -share;
    case "baselineAfter":
      return share - 1;
    case "drift":
      return reading.time - 0.5;
    default:
      return 0;
  }
}

function logFlowChange({ effect, opening }: Source, { fan }: ModelReading): number {
  switch (effect) {
    case "bothGaugeGains":
    case "fanGain":
      return fan.exponent;
    case "fanZero":
      return fan.pressure === undefined ? 0 : fan.exponent / fan.pressure;
    case "flowGain":
      return 1;
    case "openingGain":
      return fan.opening === opening ? 1 : 0;
    case "openingExponent":
      return fan.opening === opening ? fan.logOverPivot : 0;
    default:
      return 0;
  }
}

/** ∂ ln q of an error of the air: ½ through the device; −1 through the envelope and 1 − n at the leaks. */
function airChange(effect: Effect, test: PreparedTest, output: Output): number {
  const { exponent } = test.fit;
  const leaksAre = test.direction === "depressurization" ? "outdoor" : "indoor";
  const weight = (side: "indoor" | "outdoor") =>
    side !== leaksAre ? 0.5 : output.of === "coefficient" ? -1 : -exponent;
  const response = (side: "indoor" | "outdoor") =>
    densityResponse({
      temperature: test.air.temperature[side],
      humidity: test.air.humidity[side],
      pressure: test.air.barometricPressure,
    });
  const viscosity = (side: "indoor" | "outdoor") =>
    side === leaksAre && output.of === "flow" && correctsViscosity[test.standard]
      ? (2 * exponent - 1) * viscosityResponse(test.air.temperature[side])
      : 0;
  switch (effect) {
    case "indoorTemperature":
      return weight("indoor") * response("indoor").temperature + viscosity("indoor");
    case "outdoorTemperature":
      return weight("outdoor") * response("outdoor").temperature + viscosity("outdoor");
    case "indoorHumidity":
      return weight("indoor") * response("indoor").humidity;
    case "outdoorHumidity":
      return weight("outdoor") * response("outdoor").humidity;
    case "barometer":
      return weight("indoor") * response("indoor").pressure + weight("outdoor") * response("outdoor").pressure;
    default:
      return 0;
  }
}

/**
 * Sensitivity of an output to a source, signed: the change of ln q_p (or of n) per unit of the source.
 * The gain of the envelope gauge gives −n at every pressure and 0 for n; a constant offset of the gauge cancels in P − B, one that comes between the
 * baseline and the readings does not, and acts with opposite sign in the two directions.
 * Source: derivatives of the model; checked against central differences of the whole model.
 */
export function sensitivity(source: Source, test: PreparedTest, output: Output, response: ReadingResponse): number {
  const { effect } = source;
  let sum = 0;
  for (let index = 0; index < test.readings.length; index++) {
    const reading = test.readings[index]!;
    const logPressure =
      effect === "gaugeGain" || effect === "bothGaugeGains"
        ? 1
        : (test.side * pressureChange(effect, reading, test)) / test.points[index]!.pressure;
    sum += response.toPressure[index]! * logPressure + response.toFlow[index]! * logFlowChange(source, reading);
  }
  if (output.of === "exponent") return sum;
  sum += airChange(effect, test, output);
  if (output.of !== "flow") return sum;
  if (effect === "size" && output.perSize === true) return sum - 1;
  return effect === "extrapolation" ? sum + extrapolationHalfWidth(output.pressure, test.points, test.allowance) : sum;
}
