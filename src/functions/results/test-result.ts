import {
  directions,
  MethodError,
  studentT,
  testResult as resultOf,
  type Direction,
  type LeakageReading,
  type TestResult,
} from "../../core/index";
import { choice } from "../cells/cells";
import { inCell } from "../cells/host-error";
import { pairedReadings, type SheetReadings } from "../cells/pairs";
import { baselineReadings } from "../readings/baseline-pressure";
import { resultRows } from "./result-rows";
import { needed, settingsIn, techniqueIn, testAirIn, type Settings } from "../settings/settings";
import { table, type TableRow } from "../cells/table";
import { buildingIn } from "../settings/target";
import { toMethod } from "../cells/units";

/**
 * The readings of a sheet with flows in the method's unit. Where the tester names a technique, the uncertainties of the settings go with them; a standard that
 * weighs the readings in its own way keeps to it.
 */
export function inMethodFlow({ used }: SheetReadings, settings: Settings): LeakageReading[] {
  const factor = toMethod(1, "flow", settings.system);
  const { technique, "pressure uncertainty": ofPressure, "flow uncertainty": ofFlow } = settings;
  const converted = used.map((reading) => ({ ...reading, flow: reading.flow * factor }));
  if (technique === undefined || (ofPressure === undefined && ofFlow === undefined)) return converted;
  return converted.map((reading) => ({
    ...reading,
    pressureUncertainty: ofPressure,
    flowUncertainty: ofFlow && ofFlow * reading.flow,
  }));
}

/** Computes one direction from the arguments of a whole-test function. */
export function computed(
  direction: Direction,
  readings: readonly LeakageReading[],
  [baselineBefore, baselineAfter]: [number[], number[]?],
  settings: Settings,
): TestResult {
  return resultOf(
    { direction, readings, baselineBefore, baselineAfter },
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

/** The method names arguments as a function's parameters do; a setting is shown as the label that the tester typed, unless it is an argument of its own. */
export function asSetting(error: unknown, ownArguments: readonly string[] = []): unknown {
  if (!(error instanceof MethodError) || ownArguments.includes(error.argument)) return error;
  const name = error.argument.replaceAll("_", " ");
  const isSetting = /temperature|humidity|barometric|density|confidence|altitude|(pressure|flow) uncertainty/.test(
    name,
  );
  return isSetting ? new MethodError(error.kind, "settings", `${name}: ${error.rule}`) : error;
}

/** The arguments of the functions that take one direction of a test, as they stand in the cell. */
export type WholeTestArguments = readonly [
  direction: unknown,
  pressures: unknown,
  flows: unknown,
  baseline_before: unknown,
  baseline_after: unknown,
  settings: unknown,
  include: unknown,
];

/** Every step of one direction as rows. */
export function wholeTest([direction, pressures, flows, before, after, settings, include]: WholeTestArguments): {
  readonly rows: TableRow[];
  readonly headings: Settings["headings"];
} {
  const way = choice(direction, directions, "direction");
  const given = settingsIn(settings);
  const readings = pairedReadings(pressures, flows, include);
  try {
    const result = computed(way, inMethodFlow(readings, given), baselineReadings(before, after), given);
    const t = studentT(given.confidence, result.fit.degreesOfFreedom);
    return { rows: resultRows(way, result, readings, given, t), headings: given.headings };
  } catch (error) {
    throw asSetting(error);
  }
}

/**
 * One direction of a fan pressurization test, from raw readings to results at 50 Pa and at reference conditions; every step is a row. Columns: what it is, symbol,
 * value, lower, upper, unit, source; fetch a value by its symbol ("n50", "q50", "C_L", …) with INDEX and MATCH. The limits hold the scatter of the readings only.
 * Equation: Δp = reading − Δp0; q = C·Δp^n; C_L = C·(ρ/ρ0)^(1−n), by ASTM E779, ASTM E3158 and the US Army Corps also ·(μ/μ0)^(2n−1); q50 = C_L·50^n; n50 = q50/V.
 * Source: the standard that the setting "standard" names, ISO 9972:2015 where none is named; its limits are the business of VALIDITYCHECKS.
 * @customfunction TESTRESULT
 * @param direction "depressurization" or "pressurization".
 * @param pressures Pressure differences as read, Pa, indoors minus outdoors, one a row. 0 beside a blank flow means blank.
 * @param flows Flows, m³/h (SI L/s: L/s, IP: cfm); what they are is the setting "flow basis". Several columns are several fans, added; "off" where a fan rests.
 * @param baseline_before Baseline readings before the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value; needed are "flow basis" ("indicated at calibration density", "actual at the fan" or "through the envelope"), "indoor temperature" and "outdoor temperature"; with "volume" you get n50. The label "?" lists all labels; "?" as the value of "standard", "technique" and others that take words lists the words.
 * @param [include] "yes" or "no" a row. Blank or 0 means yes.
 * @returns The table.
 * @core results/test-result.ts
 * @check authorities/random-tests.test.ts authorities/trade-practice.test.ts
 */
export function testResult(
  direction: string,
  pressures: any[][],
  flows: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  settings?: any[][],
  include?: any[][],
): any[][] {
  return inCell(() => {
    const { rows, headings } = wholeTest([
      direction,
      pressures,
      flows,
      baseline_before,
      baseline_after,
      settings,
      include,
    ]);
    return table(rows, headings);
  });
}
