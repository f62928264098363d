import { fitLeakage } from "../leakage/fit";
import { logDensityRatio } from "./air-response";
import { extrapolationHalfWidth } from "./extrapolation";
import { place, type ModelErrors } from "./model-errors";
import { baselineOf, logViscosityAt, type PreparedTest } from "./model";
import type { Output } from "./output";

/** Random errors of each reading: Pa of the pressure, a fraction of the fan pressure, and of ln q. */
export interface ReadingNoise {
  readonly pressure?: ArrayLike<number>;
  readonly fan?: ArrayLike<number>;
  readonly logFlow?: ArrayLike<number>;
}

/** The line of a test that was read with errors: ln of a flow, a rate or an area but for its constant, or n. */
export type TrialResult = (output: Output) => number;

interface LogLine {
  readonly exponent: number;
  readonly meanLogPressure: number;
  readonly meanLogFlow: number;
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
  { readings, side, ...test }: PreparedTest,
  errors: ModelErrors,
  noise: ReadingNoise,
): [x: number[], y: number[]] | undefined {
  const before = errors[place.baselineBefore]!;
  const own = test.baselineAfter === undefined ? before : (before + errors[place.baselineAfter]!) / 2;
  const gain = 1 + errors[place.gaugeGain]! + errors[place.bothGaugeGains]!;
  const zero = (baselineOf(test) + own) * gain + errors[place.baseline]!;
  const fanGain = 1 + errors[place.fanGain]! + errors[place.bothGaugeGains]!;
  const flowGain = 1 + errors[place.flowGain]!;
  const x: number[] = [];
  const y: number[] = [];
  for (let index = 0; index < readings.length; index++) {
    const { pressure, flow, time, fan } = readings[index]!;
    const read =
      (pressure + (noise.pressure?.[index] ?? 0)) * gain + errors[place.offset]! + errors[place.drift]! * (time - 0.5);
    const induced = side * (read - zero);
    const fanRatio =
      (1 + (noise.fan?.[index] ?? 0)) * fanGain +
      (fan.pressure === undefined ? 0 : errors[place.fanZero]! / fan.pressure);
    const gainOfFlow = flowGain * (1 + errors[place.openingGain + 2 * fan.opening]!);
    if (!(induced > 0 && fanRatio > 0 && gainOfFlow > 0)) return undefined;
    const logFan = Math.log(fanRatio);
    x.push(Math.log(induced));
    y.push(
      Math.log(flow * gainOfFlow) +
        fan.exponent * logFan +
        errors[place.openingExponent + 2 * fan.opening]! * (fan.logOverPivot + logFan) +
        (noise.logFlow?.[index] ?? 0),
    );
  }
  return [x, y];
}

/** The line through logarithms; the ordinary one at once, since a simulation asks for it many thousand times. */
function lineThrough(test: PreparedTest, x: readonly number[], y: readonly number[]): LogLine {
  if (test.technique !== "ordinary") {
    return fitLeakage(
      test.points.map((point, index) => ({ ...point, pressure: Math.exp(x[index]!), flow: Math.exp(y[index]!) })),
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
export function trial(test: PreparedTest, errors: ModelErrors, noise: ReadingNoise = {}): TrialResult | undefined {
  const logs = logsUnder(test, errors, noise);
  if (logs === undefined) return undefined;
  const air = airUnder(test, errors);
  if (!(errors[place.size]! > -1 && Number.isFinite(air.logFlow))) return undefined;
  const { exponent, meanLogPressure, meanLogFlow } = lineThrough(test, ...logs);
  const at = (logPressure: number) => meanLogFlow + air.logFlow + exponent * (logPressure - meanLogPressure);
  return (output) => {
    switch (output.of) {
      case "exponent":
        return exponent;
      case "coefficient":
        return at(0);
      case "flow": {
        const shifted = Math.log(output.pressure) - air.logDensity + 2 * air.logViscosity;
        const shape =
          errors[place.extrapolation]! * extrapolationHalfWidth(output.pressure, test.points, test.allowance);
        const size = output.perSize === true ? Math.log1p(errors[place.size]!) : 0;
        return at(shifted) + air.logDensity - air.logViscosity + shape - size;
      }
    }
  };
}
