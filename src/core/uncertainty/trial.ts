import type { LeakageFit } from "../leakage/curve";
import { fitLeakage } from "../leakage/fit";
import type { LeakageReading } from "../leakage/readings";
import { logDensityRatio } from "./air-response";
import { place, type ModelErrors } from "./model-errors";
import { logViscosityAt, shareOfAfter, type PreparedTest } from "./model";
import type { Output } from "./output";
import { extrapolationResponse, readingResponse } from "./response";

/** Random errors of each reading: Pa of the pressure, and of ln q. */
export interface ReadingErrors {
  readonly pressure?: ArrayLike<number>;
  readonly logFlow?: ArrayLike<number>;
}

/** The line of a test that was read with errors: ln of a flow, a rate or an area but for its constant, or n. */
export type TrialResult = (output: Output) => number;

interface LogLine {
  readonly exponent: number;
  readonly meanLogPressure: number;
  readonly meanLogFlow: number;
  readonly prior?: LeakageFit["prior"];
}

/** Responses to a bend of the curve, which a simulation asks for in every trial, by the pressure. */
const knownBends = new WeakMap<PreparedTest, Map<number, number>>();

function bendAt(test: PreparedTest, output: Output & { of: "flow" }): number {
  const known = knownBends.get(test) ?? new Map<number, number>();
  knownBends.set(test, known);
  const response = known.get(output.pressure) ?? extrapolationResponse(test, output, readingResponse(test, output));
  known.set(output.pressure, response);
  return response;
}

/** What the errors of the air do: to ln q of every reading, and to the reference conditions. */
function airUnder(test: PreparedTest, errors: ModelErrors) {
  const { temperature, humidity, barometricPressure } = test.air;
  const side = (name: "indoor" | "outdoor", kelvins: number, fraction: number) => {
    const state = { temperature: temperature[name], pressure: barometricPressure, humidity: humidity[name] };
    const changed = {
      temperature: state.temperature + kelvins,
      pressure: state.pressure + errors[place.barometer]!,
      humidity: state.humidity + fraction,
    };
    return { change: logDensityRatio(changed, state), temperature: changed.temperature };
  };
  const indoor = side("indoor", errors[place.indoorTemperature]!, errors[place.indoorHumidity]!);
  const outdoor = side("outdoor", errors[place.outdoorTemperature]!, errors[place.outdoorHumidity]!);
  const [device, leaks] = test.direction === "depressurization" ? [indoor, outdoor] : [outdoor, indoor];
  return {
    logFlow: device.change / 2 - leaks.change,
    logDensity: test.logDensity + leaks.change,
    logViscosity: logViscosityAt(test.standard, leaks.temperature),
  };
}

/** Logarithms of induced pressures and flows under errors; undefined where one no longer exists. */
function logsUnder(
  test: PreparedTest,
  errors: ModelErrors,
  random: ReadingErrors,
): [x: number[], y: number[]] | undefined {
  const { readings, side, baselineBefore, baselineAfter = baselineBefore } = test;
  const before = baselineBefore + errors[place.baselineBefore]!;
  const after = baselineAfter + errors[place.baselineAfter]!;
  const drift = test.zeroFollowsTime === true ? 0 : errors[place.drift]!;
  const gain = 1 + errors[place.gaugeGain]! + errors[place.bothGaugeGains]!;
  const fanGain = 1 + errors[place.fanGain]! + errors[place.bothGaugeGains]!;
  const flowGain = 1 + errors[place.flowGain]!;
  const x: number[] = [];
  const y: number[] = [];
  for (let index = 0; index < readings.length; index++) {
    const reading = readings[index]!;
    const { pressure, flow, time, fan } = reading;
    const share = shareOfAfter(test, reading);
    const zero = (before + share * (after - before)) * gain + errors[place.baseline]!;
    const read = (pressure + (random.pressure?.[index] ?? 0)) * gain + errors[place.offset]! + drift * (time - 0.5);
    const induced = side * (read - zero);
    const fanRatio = fanGain + (fan.pressure === undefined ? 0 : errors[place.fanZero]! / fan.pressure);
    const gainOfFlow = flowGain * (1 + errors[place.openingGain + 2 * fan.opening]!);
    if (!(induced > 0 && fanRatio > 0 && gainOfFlow > 0)) return undefined;
    const logFan = Math.log(fanRatio);
    x.push(Math.log(induced));
    y.push(
      Math.log(flow * gainOfFlow) +
        fan.exponent * logFan +
        errors[place.openingExponent + 2 * fan.opening]! * (fan.logOverPivot + logFan) +
        (random.logFlow?.[index] ?? 0),
    );
  }
  return [x, y];
}

/** A reading with errors; its stated uncertainties keep their size relative to it. */
function movedTo(point: LeakageReading, pressure: number, flow: number): LeakageReading {
  const { pressureUncertainty: ofPressure, flowUncertainty: ofFlow } = point;
  return {
    ...point,
    pressure,
    flow,
    pressureUncertainty: ofPressure && (ofPressure * pressure) / point.pressure,
    flowUncertainty: ofFlow && (ofFlow * flow) / point.flow,
  };
}

/** The line through logarithms; the ordinary one at once, since a simulation asks for it many thousand times. */
function lineThrough(test: PreparedTest, x: readonly number[], y: readonly number[]): LogLine {
  if (test.technique !== "ordinary") {
    return fitLeakage(
      test.points.map((point, index) => movedTo(point, Math.exp(x[index]!), Math.exp(y[index]!))),
      test.technique,
    );
  }
  let [meanLogPressure, meanLogFlow] = [0, 0];
  for (let index = 0; index < x.length; index++) {
    meanLogPressure += x[index]! / x.length;
    meanLogFlow += y[index]! / x.length;
  }
  let [sumXX, sumXY] = [0, 0];
  for (let index = 0; index < x.length; index++) {
    const deviation = x[index]! - meanLogPressure;
    sumXX += deviation * deviation;
    sumXY += deviation * (y[index]! - meanLogFlow);
  }
  return { exponent: sumXY / sumXX, meanLogPressure, meanLogFlow };
}

/**
 * The model of a test as one function from its errors to its results, nothing linearized: baseline, induced pressures, flow device, air, fit, reference
 * conditions. Undefined where a pressure, a flow, a density or a size is no longer above 0: such a test could not be evaluated.
 */
export function trial(test: PreparedTest, errors: ModelErrors, random: ReadingErrors = {}): TrialResult | undefined {
  const logs = logsUnder(test, errors, random);
  if (logs === undefined) return undefined;
  const air = airUnder(test, errors);
  if (!(errors[place.size]! > -1 && Number.isFinite(air.logFlow))) return undefined;
  const { meanLogPressure, meanLogFlow, prior, ...line } = lineThrough(test, ...logs);
  const exponent = line.exponent + (prior?.share ?? 0) * errors[place.expectedExponent]!;
  const at = (logPressure: number) => meanLogFlow + air.logFlow + exponent * (logPressure - meanLogPressure);
  return (output) => {
    switch (output.of) {
      case "exponent":
        return exponent;
      case "coefficient":
        return at(0);
      case "flow": {
        const shifted = Math.log(output.pressure) - air.logDensity + 2 * air.logViscosity;
        const shape = output.ofLine === true ? 0 : errors[place.extrapolation]! * bendAt(test, output);
        const size = output.perSize === true ? Math.log1p(errors[place.size]!) : 0;
        return at(shifted) + air.logDensity - air.logViscosity + shape - size;
      }
    }
  };
}
