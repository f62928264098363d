import {
  baselinePressure,
  fitLeakage,
  inducedPoints,
  MethodError,
  toIndoorsMinusOutdoors,
  zeroOfReadings,
  type Direction,
  type LeakageFit,
  type LeakageReading,
  type TestFacts,
} from "../../../core/index";
import { baselineTimesIn, computed } from "../../results/whole-test";
import { techniqueIn, type Settings } from "../../settings/settings";

/** The line through the readings, absent while they are too few or all at one pressure. */
function lineThrough(points: readonly LeakageReading[], settings: Settings): LeakageFit | undefined {
  try {
    return fitLeakage(points, techniqueIn(settings));
  } catch (error) {
    if (error instanceof MethodError) return undefined;
    throw error;
  }
}

/** A value that may wait for further input. Errors: those of a broken rule. */
function whereGiven<Value>(compute: () => Value): Value | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof MethodError && error.kind === "missing") return undefined;
    throw error;
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
  const fit = lineThrough(points, settings);
  // The standards that limit an interval mean the one at 95 %, whatever the tester chose for the results.
  const result = fit && whereGiven(() => computed(direction, readings, baselines, { ...settings, confidence: 0.95 }));
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
    technique: techniqueIn(settings),
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
