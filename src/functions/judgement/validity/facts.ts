import {
  baselinePressure,
  fitLeakage,
  inducedPoints,
  MethodError,
  toIndoorsMinusOutdoors,
  whereSound,
  zeroOfReadings,
  type Direction,
  type LeakageFit,
  type LeakageReading,
  type Technique,
  type TestFacts,
  type TestResult,
} from "../../../core/index";
import { baselineTimesIn, computed } from "../../results/whole-test";
import { techniqueIn, type Settings } from "../../settings/settings";

/** A value that may wait for further input. Errors: those of a broken rule. */
function whereGiven<Value>(compute: () => Value): Value | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof MethodError && error.kind === "missing") return undefined;
    throw error;
  }
}

/** The line and the result that it leads to, fitted once. */
interface Line {
  /** Absent while the readings are too few or all at one pressure. */
  readonly fit?: LeakageFit | undefined;
  /** Absent while there is no line or an input of the result is missing. */
  readonly result?: TestResult | undefined;
}

/**
 * The result with its line, or the line alone of the flows as they were read, which differ by a factor that changes C alone.
 * Errors: those of the result where there is a line.
 */
function lineOf(compute: () => TestResult, points: readonly LeakageReading[], technique: Technique): Line {
  const alone = () => whereSound(() => fitLeakage(points, technique));
  try {
    const result = whereGiven(compute);
    return { fit: result ? result.fit : alone(), result };
  } catch (error) {
    if (alone() !== undefined) throw error;
    return {};
  }
}

function days(from: number | undefined, until: number | undefined): number | undefined {
  return from === undefined || until === undefined ? undefined : Math.floor(until) - Math.floor(from);
}

/** What the arguments say about the test. */
export function factsOf(
  direction: Direction,
  readings: readonly LeakageReading[],
  [before, after]: [number[], number[]?],
  settings: Settings,
): TestFacts {
  const baselines: [number[], number[]?] = after === undefined || after.length === 0 ? [before] : [before, after];
  const baseline = whereGiven(() => baselinePressure(...baselines));
  const times = baseline && whereGiven(() => [baselineTimesIn(settings, readings, baselines[1])]);
  const zeros = baseline && times && zeroOfReadings(baseline, readings, times[0]);
  const points = zeros ? inducedPoints(readings, zeros, direction, settings["pressure sign"]) : [];
  const technique = techniqueIn(settings);
  // The standards that limit an interval mean the one at 95 %, whatever the tester chose for the results.
  const whole = () => computed(direction, readings, baselines, { ...settings, confidence: 0.95 });
  const { fit, result } = lineOf(whole, points, technique);
  const at75 = result?.at(75).perEnvelopeArea;
  const signed = (values: readonly number[]) =>
    values.map((value) => toIndoorsMinusOutdoors(value, settings["pressure sign"]));
  const { "building height": height, "indoor temperature": indoor, "outdoor temperature": outdoor } = settings;
  return {
    direction,
    baselineBefore: signed(before),
    baselineAfter: baselines[1] && signed(baselines[1]),
    points,
    count: readings.length,
    technique,
    fit,
    airChangeRate: result?.at50.airChangeRate?.value,
    flowAt50: result?.at50.flow.value,
    halfIntervalAt50: result && result.at50.flow.upper / result.at50.flow.value - 1,
    halfIntervalAt75: at75 && at75.upper - at75.value,
    flowAt50Otherwise: settings["q50 of the other direction"],
    referencePressure: settings["reference pressure"],
    heightTimesDifference:
      height === undefined || indoor === undefined || outdoor === undefined
        ? undefined
        : height * Math.abs(indoor - outdoor),
    outdoorTemperature: outdoor,
    wind: settings["wind speed"],
    beaufort: settings.beaufort,
    gaugeDays: days(settings["test date"], settings["gauge certificate valid until"]),
    fanDays: days(settings["test date"], settings["flow device certificate valid until"]),
  };
}
