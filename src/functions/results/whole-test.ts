import {
  directions,
  testResult as resultOf,
  type BaselineTimes,
  type Direction,
  type LeakageReading,
  type TestResult,
} from "../../core/index";
import { choice } from "../cells/cells";
import { pairedReadings, type SheetReadings } from "../cells/pairs";
import { toMethod } from "../cells/units";
import { baselineReadings } from "../readings/baseline-pressure";
import { nameSettings, needed, type Settings, settingsIn, techniqueIn, testAirIn } from "../settings/settings";
import { buildingIn } from "../settings/target";
import { baselineScatter, noiseIn } from "../uncertainty/assumptions";

/**
 * The readings of a sheet with flows in the method's unit. Where the tester names a technique, the uncertainties of the settings go with them; a standard that
 * weighs the readings in its own way keeps to it. The technique that expects an exponent weighs by the noise that the budget takes too, stated or not.
 * @param baselines The baseline readings, whose scatter shows the noise where it is not stated.
 */
export function inMethodFlow(
  readings: readonly LeakageReading[],
  settings: Settings,
  baselines: readonly [before: readonly number[], after?: readonly number[]],
): LeakageReading[] {
  const factor = toMethod(1, "flow", settings.system);
  const { technique, "pressure uncertainty": ofPressure, "flow uncertainty": ofFlow } = settings;
  const converted = readings.map((reading) => ({ ...reading, flow: reading.flow * factor }));
  if (technique === "weighted with expected exponent" && baselines[0].length > 0) {
    const { pressure, flow, stated } = noiseIn(settings, baselineScatter(settings, baselines));
    return converted.map((reading) => ({
      ...reading,
      pressureUncertainty: pressure,
      flowUncertainty: flow * reading.flow,
      isAssumed: !stated,
    }));
  }
  if (technique === undefined || (ofPressure === undefined && ofFlow === undefined)) return converted;
  return converted.map((reading) => ({
    ...reading,
    pressureUncertainty: ofPressure,
    flowUncertainty: ofFlow && ofFlow * reading.flow,
  }));
}

/**
 * When the baselines were read, where the readings carry their times; undefined where the zero is the mean of the baselines.
 * Errors: times on one side only (missing).
 */
export function baselineTimesIn(
  settings: Settings,
  readings: readonly LeakageReading[],
  baselineAfter: readonly number[] | undefined,
): BaselineTimes | undefined {
  const { "time of baseline before": before, "time of baseline after": after } = settings;
  const isTimed = readings.some(({ time }) => time !== undefined);
  if (baselineAfter === undefined || !(isTimed || before !== undefined || after !== undefined)) return undefined;
  return { before: needed(settings, "time of baseline before"), after: needed(settings, "time of baseline after") };
}

/** Runs what a function computes of a whole test; the exponent and the line are those of the readings, not a setting. */
export function ofWholeTest<Result>(body: () => Result): Result {
  return nameSettings(body, ["exponent", "technique"]);
}

/** Computes one direction from the arguments of a whole-test function. */
export function computed(
  direction: Direction,
  readings: readonly LeakageReading[],
  [baselineBefore, baselineAfter]: [number[], number[]?],
  settings: Settings,
  excluded: readonly LeakageReading[] = [],
): TestResult {
  const baselineTimes = baselineTimesIn(settings, readings, baselineAfter);
  return resultOf(
    { direction, readings, excluded, baselineBefore, baselineAfter, baselineTimes },
    testAirIn(settings),
    {
      flowBasis: needed(settings, "flow basis"),
      calibrationDensity: settings["calibration density"],
      pressureSign: settings["pressure sign"],
      standard: settings.standard,
      technique: techniqueIn(settings),
      confidence: settings.confidence,
    },
    buildingIn(settings),
  );
}

/** The arguments of the functions that take one direction of a test, as entered in the cell. */
type WholeTestArguments = readonly [
  direction: unknown,
  pressures: unknown,
  flows: unknown,
  baseline_before: unknown,
  baseline_after: unknown,
  settings: unknown,
  include: unknown,
];

/** One direction as entered in the cells, and its computed result. */
export interface WholeTest {
  readonly direction: Direction;
  readonly settings: Settings;
  readonly readings: SheetReadings;
  readonly baselines: [before: number[], after?: number[]];
  readonly result: TestResult;
}

/** Reads the arguments of a whole-test function and computes the direction. Errors: settings named as the tester typed them. */
export function wholeTest([
  direction,
  pressures,
  flows,
  before,
  after,
  settings,
  include,
]: WholeTestArguments): WholeTest {
  const way = choice(direction, directions, "direction");
  const given = settingsIn(settings);
  const readings = pairedReadings(pressures, flows, include, "in front");
  const baselines = baselineReadings(before, after);
  return ofWholeTest(() => {
    const [used, excluded] = [readings.used, readings.excluded].map((some) => inMethodFlow(some, given, baselines));
    const result = computed(way, used!, baselines, given, excluded);
    return { direction: way, settings: given, readings, baselines, result };
  });
}
