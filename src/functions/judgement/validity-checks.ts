import {
  directions,
  fitLeakage,
  inducedPressures,
  MethodError,
  baselinePressure,
  profiles,
  toIndoorsMinusOutdoors,
  validityChecks as checksOf,
  type Check,
  type Direction,
  type LeakageFit,
  type LeakageReading,
  type TestFacts,
} from "../../core/index";
import { choice } from "../cells/cells";
import { finiteRow } from "../cells/finite";
import { inCell } from "../cells/host-error";
import { pairedReadings } from "../cells/pairs";
import { baselineReadings } from "../readings/baseline-pressure";
import { settingsIn, techniqueIn, type Settings } from "../settings/settings";
import { headed } from "../cells/spread";
import { asSetting, computed, inMethodFlow } from "../results/test-result";
import { wordsOfCheck } from "./validity/words";

const headings = [
  "check",
  "symbol",
  "measured",
  "limit",
  "unit",
  "outcome",
  "binding or advisory",
  "clause",
  "what to do",
];

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

/** Readings against the baseline: induced pressures as magnitudes. */
function induced(
  direction: Direction,
  readings: readonly LeakageReading[],
  baseline: number,
  settings: Settings,
): LeakageReading[] {
  const rows = readings.map(({ row, pressure }) => ({ row, value: pressure }));
  const sign = settings["pressure sign"];
  const pressures = inducedPressures(rows, baseline, sign, direction, "pressures");
  return readings.map((reading, index) => {
    const { flow, row } = reading;
    if (!(flow > 0)) throw new MethodError("invalid", "flows", `must be above 0 (got ${flow})`, row);
    return { ...reading, pressure: Math.abs(pressures[index]!.value) };
  });
}

function days(from: number | undefined, until: number | undefined): number | undefined {
  return from === undefined || until === undefined ? undefined : Math.floor(until) - Math.floor(from);
}

/** What the arguments say about the test. */
function factsOf(
  direction: Direction,
  readings: readonly LeakageReading[],
  [before, after]: [number[], number[]?],
  settings: Settings,
): TestFacts {
  const baselines: [number[], number[]?] = after === undefined || after.length === 0 ? [before] : [before, after];
  const baseline = whereGiven(() => baselinePressure(...baselines));
  const points = baseline === undefined ? [] : induced(direction, readings, baseline.pressure, settings);
  const fit = lineThrough(points, settings);
  const result = fit && whereGiven(() => computed(direction, readings, baselines, settings));
  const signed = (values: readonly number[]) =>
    values.map((value) => toIndoorsMinusOutdoors(value, settings["pressure sign"]));
  const { "building height": height, "indoor temperature": indoor, "outdoor temperature": outdoor } = settings;
  return {
    direction,
    baselineBefore: signed(before),
    baselineAfter: baselines[1] && signed(baselines[1]),
    points,
    count: readings.length,
    fit,
    airChangeRate: result?.at50.airChangeRate?.value,
    flowAt50: result?.at50.flow.value,
    flowAt50Otherwise: settings["q50 of the other direction"],
    referencePressure: settings["reference pressure"],
    heightTimesDifference:
      height === undefined || indoor === undefined || outdoor === undefined
        ? undefined
        : height * Math.abs(indoor - outdoor),
    wind: settings["wind speed"],
    beaufort: settings.beaufort,
    gaugeDays: days(settings["test date"], settings["gauge certificate valid until"]),
    fanDays: days(settings["test date"], settings["flow device certificate valid until"]),
  };
}

function shown(value: number): string {
  return String(Number(value.toPrecision(4)));
}

/** A limit as a person writes it. */
function limitText(limit: Check["limit"]): string {
  if (limit === undefined) return "none in this standard";
  if (typeof limit === "string") return limit;
  const { lower, upper } = limit;
  if (upper === undefined) return `≥ ${shown(lower ?? 0)}`;
  return lower === undefined ? `≤ ${shown(upper)}` : `${shown(lower)} to ${shown(upper)}`;
}

const sourceOfMark = { C: " (C)", M: " (M: check against your own copy)" } as const;

function clauseText({ clause, mark }: Check, edition: string): string {
  if (mark === undefined) return "";
  return mark === "practice" ? "common practice, no source" : `${edition}, ${clause}${sourceOfMark[mark]}`;
}

function rowOf(check: Check, edition: string): (number | string)[] {
  const { name, measured = "", limit, outcome, binding } = check;
  const { what, unit, advice, missing } = wordsOfCheck[name];
  const todo = outcome === "not met" ? advice : outcome === "cannot be judged" ? missing : "";
  const weight = binding ? "binding" : "advisory";
  return finiteRow([what, name, measured, limitText(limit), unit, outcome, weight, clauseText(check, edition), todo]);
}

/**
 * Whether one direction of a test is valid by the standard chosen: 27 rows, always the same, a check each. Columns: check, symbol, measured, limit, unit, outcome,
 * binding or advisory, clause, what to do. Outcomes: "met", "not met", "cannot be judged" (what is missing stands at the end), blank where the standard
 * has no limit. Marks: (C) read in a published text, (M) from memory. Hand the whole table to PASSFAIL.
 * Source: the standard that the setting "standard" names, ISO 9972:2015 where none is named.
 * @customfunction VALIDITYCHECKS
 * @param direction "depressurization" or "pressurization".
 * @param pressures Pressure differences as read, Pa, indoors minus outdoors, one a row. 0 beside a blank flow means blank.
 * @param flows Flows, m³/h (SI L/s: L/s, IP: cfm). Several columns are several fans, added; "off" where a fan rests.
 * @param baseline_before Single baseline readings before the test, Pa, signed; an average hides what is checked. 0 is a value: pass blanks as "".
 * @param [baseline_after] Baseline readings after the test, Pa, signed. 0 is a value: pass blanks as "".
 * @param [settings] Two columns, label and value; besides those of TESTRESULT: "wind speed" (m/s, IP: mph), "wind place", "beaufort", "building height", "test date", "gauge certificate valid until", "flow device certificate valid until", "low pressure reason", "q50 of the other direction" (in a block of its own if it depends on this one).
 * @param [include] "yes" or "no" a row. Blank or 0 means yes.
 * @returns The table.
 * @core judgement/validity.ts judgement/validity-facts.ts
 * @check authorities/standards.test.ts functions/validity/table.test.ts
 */
export function validityChecks(
  direction: string,
  pressures: any[][],
  flows: any[][],
  baseline_before: any[][],
  baseline_after?: any[][],
  settings?: any[][],
  include?: any[][],
): any[][] {
  return inCell(() => {
    const way = choice(direction, directions, "direction");
    const given = settingsIn(settings);
    const readings = inMethodFlow(pairedReadings(pressures, flows, include), given);
    if (readings.length === 0) throw new MethodError("missing", "pressures", "no reading yet");
    try {
      const facts = factsOf(way, readings, baselineReadings(baseline_before, baseline_after), given);
      const checks = checksOf(facts, given.standard, {
        windPlace: given["wind place"],
        reasonStated: given["low pressure reason"] !== undefined,
      });
      const { edition } = profiles[given.standard];
      const rows = checks.map((check) => rowOf(check, edition));
      return headed(headings, rows, given.headings);
    } catch (error) {
      throw asSetting(error);
    }
  });
}
