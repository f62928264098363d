import {
  assumedHumidity,
  barometricPressure,
  MethodError,
  referenceDensity,
  relativePressureAtAltitude,
  standardPressure,
  type Technique,
  techniqueOf,
  type TestAir,
} from "../../core/index";
import { isBlank, isBlankOrZero, plain, rowsOf } from "../cells/cells";
import { nearest, shorten } from "../cells/text";
import { toMethod, unitSystem, type UnitSystem } from "../cells/units";
import { type Label, labels, type Labels } from "./labels";
import type { Reader } from "./readers";

type Given = { [Name in keyof Labels]?: Labels[Name]["read"] extends Reader<infer Value> ? Value : never };

/** What holds where nothing was given. */
const defaults = {
  standard: "ISO 9972",
  confidence: 0.95,
  "pressure sign": "indoors minus outdoors",
  "calibration density": referenceDensity,
} satisfies Given;

/** Settings in the method's units, with what is assumed where nothing was given. */
export type Settings = Given & Required<Pick<Given, keyof typeof defaults>> & { readonly system: UnitSystem };

function isLabel(name: string): name is keyof Labels {
  return Object.hasOwn(labels, name);
}

const allLabels = 'on the add-in\'s page (Home, Stillair) under "Settings"';

/** What to do about a label that is not known: those that may have been meant, and where all are listed. */
function adviceOn(name: string): string {
  if (name === "?") return `the labels are listed ${allLabels}`;
  const like = nearest(name, Object.keys(labels)).map((label) => `"${label}"`);
  const unknown = `unknown label "${shorten(name, 40)}"`;
  if (like.length === 0) return `${unknown}; all are listed ${allLabels}`;
  return `${unknown}; did you mean ${like.join(" or ")}? The label "?" says where all are listed`;
}

/** The value beside a label, undefined where it is blank. */
function valueIn(name: keyof Labels, cell: unknown, row: number): unknown {
  const { read, zeroIsValue }: Label = labels[name];
  const value = plain(cell, `settings, ${name}`, row);
  if (zeroIsValue === true ? isBlank(value) : isBlankOrZero(value)) return undefined;
  return read(value, (rule) => {
    // A long list of words leaves less room for what was typed.
    const room = Math.max(20, Math.min(80, 200 - name.length - rule.length));
    throw new MethodError("invalid", "settings", `${name}: ${rule} (got ${shorten(String(value), room)})`, row);
  });
}

/**
 * Settings from a range of two columns, label and value, in any order, blank rows allowed.
 * Errors: an unknown label (those like it are named), a label that stands twice, a value that breaks its rule.
 */
export function settingsIn(argument: unknown): Settings {
  const given: Record<string, unknown> = {};
  rowsOf(argument).forEach((cells, index) => {
    const row = index + 1;
    if (cells.length !== 2)
      throw new MethodError("invalid", "settings", `two columns are needed, label and value, not ${cells.length}`);
    const labelCell = plain(cells[0], "settings", row);
    if (isBlankOrZero(labelCell)) {
      if (isBlankOrZero(plain(cells[1], "settings", row))) return;
      throw new MethodError("invalid", "settings", "a value without its label", row);
    }
    const name = String(labelCell).trim().toLowerCase().replace(/\s+/g, " ");
    if (!isLabel(name)) throw new MethodError("invalid", "settings", adviceOn(name), row);
    if (Object.hasOwn(given, name))
      throw new MethodError("invalid", "settings", `the label "${name}" stands twice`, row);
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
  if (value !== undefined && value !== null) return value;
  const { words }: Label = labels[name];
  const choices = words === undefined ? "" : `; it is one of: ${words.join(", ")}`;
  throw new MethodError("missing", "settings", `"${name}" is not given yet${choices}`);
}

/** Humidities and barometer: read, derived from the altitude, or assumed; `barometerFrom` says which, for the person who reads the table. */
export function airIn(settings: Settings): Omit<TestAir, "temperature"> & { readonly barometerFrom: string } {
  const humidity = {
    indoor: settings["indoor humidity"] ?? assumedHumidity,
    outdoor: settings["outdoor humidity"] ?? assumedHumidity,
  };
  const { "barometric pressure": read, altitude } = settings;
  if (settings["air density"] === "ASTM E779") {
    const altitudeOfFormula = needed(settings, "altitude");
    const barometricPressure = standardPressure * relativePressureAtAltitude(altitudeOfFormula);
    const unused = read === undefined ? "" : "; the one read does not count";
    return {
      humidity,
      barometricPressure,
      altitudeOfFormula,
      barometerFrom: `from the altitude by ASTM E779${unused}`,
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
  const [shown, usual] = [read, expected].map((pressure) => Math.round(pressure));
  const rule = `barometric pressure: ${shown} Pa does not fit the altitude, where about ${usual} Pa are usual; is it reduced to sea level?`;
  throw new MethodError("invalid", "settings", rule);
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

/** The method names arguments as a function's parameters do; a setting is shown as the label that the tester typed, unless it is an argument of its own. */
export function asSetting(error: unknown, ownArguments: readonly string[] = []): unknown {
  if (!(error instanceof MethodError) || ownArguments.includes(error.argument)) return error;
  const name = error.argument.replaceAll("_", " ");
  const isSetting =
    /temperature|humidity|barometric|density|confidence|altitude|time of baseline|(pressure|flow) uncertainty/.test(
      name,
    );
  return isSetting ? new MethodError(error.kind, "settings", `${name}: ${error.rule}`) : error;
}
