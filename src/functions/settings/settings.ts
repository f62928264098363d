import {
  assumedHumidity,
  barometricPressure,
  MethodError,
  referenceDensity,
  relativePressureAtAltitude,
  standardPressure,
  type Technique,
  techniqueOf,
  type Term,
  type TestAir,
  usualConfidence,
} from "../../core/index";
import { isBlank, isBlankOrZero, plain, rowsOf } from "../cells/cells";
import { nearest } from "../cells/text";
import { toMethod, unitSystem, type UnitSystem } from "../cells/units";
import { type Label, labels, type Labels } from "./labels";
import type { Reader } from "./readers";
import { invalid, invalidSetting, missing } from "../cells/rule-codes";

type Given = { [Name in keyof Labels]?: Labels[Name]["read"] extends Reader<infer Value> ? Value : never };

/** What is assumed by every function; other assumptions are made where they are needed. */
export const defaults = {
  standard: "ISO 9972",
  confidence: usualConfidence,
  "pressure sign": "indoors minus outdoors",
  "calibration density": referenceDensity,
} satisfies Given;

/** Settings in the method's units, with what is assumed where nothing was given. */
export type Settings = Given & Required<Pick<Given, keyof typeof defaults>> & { readonly system: UnitSystem };

function isLabel(name: string): name is keyof Labels {
  return Object.hasOwn(labels, name);
}

/** The value beside a label, undefined where it is blank. */
function valueIn(name: keyof Labels, cell: unknown, row: number): unknown {
  const { read, zeroIsValue }: Label = labels[name];
  const value = plain(cell, `settings, ${name}`, row);
  if (zeroIsValue === true ? isBlank(value) : isBlankOrZero(value)) return undefined;
  return read(value, (code, data) => {
    throw new MethodError("invalid", name, code, data ?? { got: value }, { setting: name, row });
  });
}

/**
 * Settings from a range of two columns, label and value, in any order, blank rows allowed.
 * Errors: an unknown label (similar ones are suggested), a label given twice, a value that breaks its rule.
 */
export function settingsIn(argument: unknown): Settings {
  const given: Record<string, unknown> = {};
  rowsOf(argument).forEach((cells, index) => {
    const row = index + 1;
    if (cells.length !== 2) throw invalid("settings", "columns", { columns: "label and value", got: cells.length });
    const labelCell = plain(cells[0], "settings", row);
    if (isBlankOrZero(labelCell)) {
      if (isBlankOrZero(plain(cells[1], "settings", row))) return;
      throw invalid("settings", "without", { part: "a value", lacks: "label" }, row);
    }
    const name = String(labelCell).trim().toLowerCase().replace(/\s+/g, " ");
    if (!isLabel(name))
      throw invalid("settings", "unknownLabel", { label: name, like: nearest(name, Object.keys(labels)) }, row);
    if (Object.hasOwn(given, name)) throw invalid("settings", "twice", { what: name }, row);
    const value = valueIn(name, cells[1], row);
    if (value !== undefined) given[name] = value;
  });
  return inMethodUnits(given);
}

function inMethodUnits(given: Given): Settings {
  const system = unitSystem(given.units);
  const converted = Object.entries(given).map(([name, value]) => {
    const { measures }: Label = labels[name as keyof Labels];
    return [name, measures === undefined ? value : toMethod(value as number, measures, system)];
  });
  return { ...defaults, ...(Object.fromEntries(converted) as Given), system };
}

/** A setting that a calculation cannot do without. */
export function needed<Name extends keyof Given>(settings: Settings, name: Name): NonNullable<Given[Name]> {
  const value = settings[name];
  // A blank value is never null.
  if (value !== undefined) return value;
  const { words }: Label = labels[name];
  throw missing("settings", "settingNeeded", { label: name, words });
}

/**
 * Where the barometric pressure of a test comes from. A closed list: tables show these words, and the readings that a budget hands on hold them, so that a
 * change of one is a change of the tables.
 */
type BarometerOrigin =
  | "as read"
  | "from the altitude"
  | "from the altitude by ASTM E779"
  | "from the altitude by ASTM E779; the one read does not count"
  | "assumed, none given";

/** Humidities and barometer, and where the latter comes from. */
export function airIn(settings: Settings): Omit<TestAir, "temperature"> & { readonly barometerFrom: BarometerOrigin } {
  const humidity = {
    indoor: settings["indoor humidity"] ?? assumedHumidity,
    outdoor: settings["outdoor humidity"] ?? assumedHumidity,
  };
  const { "barometric pressure": read, altitude } = settings;
  if (settings["air density"] === "ASTM E779") {
    const altitudeOfFormula = needed(settings, "altitude");
    const barometricPressure = standardPressure * relativePressureAtAltitude(altitudeOfFormula);
    return {
      humidity,
      barometricPressure,
      altitudeOfFormula,
      barometerFrom:
        read === undefined
          ? "from the altitude by ASTM E779"
          : "from the altitude by ASTM E779; the one read does not count",
    };
  }
  if (read !== undefined) {
    requireStationPressure(read, altitude);
    return { humidity, barometricPressure: read, barometerFrom: "as read" };
  }
  if (altitude !== undefined)
    return { humidity, barometricPressure: barometricPressure(altitude), barometerFrom: "from the altitude" };
  return { humidity, barometricPressure: standardPressure, barometerFrom: "assumed, none given" };
}

/**
 * A barometer that does not fit the altitude is most likely a weather report's value, reduced to sea level: at 1 500 m that is 18 % of the density. The
 * weather itself moves the pressure by up to about 5 % (common practice, no source).
 */
function requireStationPressure(read: number, altitude: number | undefined): void {
  if (altitude === undefined) return;
  const expected = barometricPressure(altitude);
  if (Math.abs(read / expected - 1) <= 0.06) return;
  throw invalidSetting("barometric pressure", "seaLevelLikely", {
    read: Math.round(read),
    usual: Math.round(expected),
  });
}

/** The air of the test. Errors: a temperature is not given (missing). */
export function testAirIn(settings: Settings): TestAir {
  const temperature = {
    indoor: needed(settings, "indoor temperature"),
    outdoor: needed(settings, "outdoor temperature"),
  };
  return { ...airIn(settings), temperature };
}

/** The technique that the tester names, else that of the standard. */
export function techniqueIn({ technique, standard }: Settings): Technique {
  return technique ?? techniqueOf(standard);
}

/**
 * Runs what the method computes from settings: an error of a term that the tester typed as a setting then names its label.
 * @param own The labels that are arguments of this function as well.
 * @param names Terms that this call knows by other names: labels, columns.
 */
export function nameSettings<Result>(
  body: () => Result,
  own: readonly Term[] = [],
  names: { readonly [Name in Term]?: string | undefined } = {},
): Result {
  try {
    return body();
  } catch (error) {
    if (!(error instanceof MethodError) || error.place.argument !== undefined || error.place.setting !== undefined)
      throw error;
    const term = error.term as Term;
    if (own.includes(term)) throw error;
    const name = names[term] ?? ofSettings[term] ?? term;
    throw isLabel(name) ? error.called({ setting: name }) : name === term ? error : error.called({ argument: name });
  }
}

/** Terms that no single setting holds, or that the sentence names itself. */
const ofSettings: { readonly [Name in Term]?: string } = { uncertainties: "settings", "time unit": "settings" };
