import * as z from "zod/mini";
import {
  assumedHumidity,
  barometricPressure,
  densityFormulas,
  exposedSides,
  flowBases,
  foundations,
  leakageAreaDefinitions,
  MethodError,
  pressureSigns,
  referenceDensity,
  relativePressureAtAltitude,
  shieldings,
  standardPressure,
  standards,
  targetQuantities,
  techniques,
  timeUnits,
  volumeConventions,
  windPlaces,
  type TestAir,
} from "../core/index";
import { budgetQuantities } from "./budget-quantities";
import { isBlank, isBlankOrZero, plain, rowsOf } from "./cells";
import { toMethod, unitSystem, unitSystems, type UnitSystem } from "./units";

const number = z.number("a number is needed");
const size = number.check(z.positive("must be above 0"));
const fraction = number.check(
  z.minimum(0, "a fraction from 0 to 1"),
  z.maximum(1, "a fraction from 0 to 1, 0.5 for 50 %"),
);

/** A day as Excel counts them. */
const day = size.check(z.maximum(2_958_465, "a date as Excel counts days"));

const small = size.check(z.maximum(0.5, "a fraction, 0.01 for 1 %"));

/** One word of a list, in any letter case. */
function oneOf<const Word extends string>(words: readonly Word[]) {
  const spelt = new Map(words.map((word) => [word.toLowerCase(), word]));
  const spelling = z.transform((value) =>
    typeof value === "string" ? (spelt.get(value.trim().toLowerCase()) ?? value) : value,
  );
  return z.pipe(spelling, z.enum(words, `is one of: ${words.join(", ")}`));
}

const yesNo = z.pipe(
  z.transform((value) => (typeof value === "boolean" ? (value ? "yes" : "no") : value)),
  oneOf(["yes", "no"]),
);

/** A label: what its value must be, what it measures where units matter, and whether 0 is a value or a blank cell that a host sent as 0. */
interface Label<Schema extends z.core.$ZodType> {
  readonly schema: Schema;
  readonly measures?: keyof UnitSystem;
  readonly zeroIsValue?: true;
}

function label<Schema extends z.core.$ZodType>(
  schema: Schema,
  rest: Omit<Label<Schema>, "schema"> = {},
): Label<Schema> {
  return { schema, ...rest };
}

/** The labels of a settings range. One list serves every function, so that one block on the sheet serves them all. */
const labels = {
  volume: label(size, { measures: "volume" }),
  "envelope area": label(size, { measures: "area" }),
  "floor area": label(size, { measures: "area" }),
  "volume convention": label(oneOf(volumeConventions)),
  "indoor temperature": label(number, { measures: "temperature", zeroIsValue: true }),
  "outdoor temperature": label(number, { measures: "temperature", zeroIsValue: true }),
  "barometric pressure": label(size, { measures: "barometer" }),
  altitude: label(number, { measures: "length", zeroIsValue: true }),
  "indoor humidity": label(fraction, { zeroIsValue: true }),
  "outdoor humidity": label(fraction, { zeroIsValue: true }),
  "air density": label(oneOf(densityFormulas)),
  "flow basis": label(oneOf(flowBases)),
  "calibration density": label(size, { measures: "density" }),
  "pressure sign": label(oneOf(pressureSigns)),
  standard: label(oneOf(standards)),
  technique: label(oneOf(techniques)),
  "pressure uncertainty": label(size),
  "flow uncertainty": label(size.check(z.maximum(0.5, "a fraction, 0.01 for 1 %"))),
  confidence: label(
    number.check(z.minimum(0.5, "a fraction, 0.95 for 95 %"), z.maximum(0.9999, "a fraction, 0.95 for 95 %")),
  ),
  "reference pressure": label(size),
  quantity: label(oneOf(targetQuantities)),
  exponent: label(
    number.check(z.minimum(0.4, "from 0.5 to 1, with some margin"), z.maximum(1.1, "from 0.5 to 1, with some margin")),
  ),
  columns: label(z.string("a list of words")),
  "time unit": label(oneOf(timeUnits)),
  tolerance: label(size),
  "shortest station": label(size),
  "gauge resolution": label(size),
  "fan coefficient": label(size),
  "fan exponent": label(size),
  "lowest fan pressure": label(size),
  "highest fan pressure": label(size),
  "zero flow below": label(number.check(z.minimum(0, "0 or more")), { zeroIsValue: true }),
  "leakage area definition": label(oneOf(leakageAreaDefinitions)),
  storeys: label(size),
  "shelter class": label(size),
  flue: label(yesNo),
  foundation: label(oneOf(foundations)),
  "exposed sides": label(oneOf(exposedSides)),
  shielding: label(oneOf(shieldings)),
  "supply flow": label(size, { measures: "flow" }),
  "extract flow": label(size, { measures: "flow" }),
  "building height": label(size, { measures: "length" }),
  "weather and shielding factor": label(size),
  "wind speed": label(number.check(z.minimum(0, "must be 0 or more")), { measures: "speed", zeroIsValue: true }),
  "wind place": label(oneOf(windPlaces)),
  beaufort: label(
    number.check(z.minimum(0, "a Beaufort number from 0 to 12"), z.maximum(12, "a Beaufort number from 0 to 12")),
    { zeroIsValue: true },
  ),
  "test date": label(day),
  "gauge certificate valid until": label(day),
  "flow device certificate valid until": label(day),
  "q50 of the other direction": label(size, { measures: "flow" }),
  "low pressure reason": label(z.string("words are needed")),
  openings: label(z.string("letters, one a reading, as AAABBB")),
  "gauge accuracy": label(small),
  "gauge zero": label(size),
  "fan gauge accuracy": label(small),
  "fan gauge zero": label(size),
  "gauges of one calibration": label(yesNo),
  "fan pressure at lowest flow": label(size),
  "pivot fan pressure": label(size),
  "fan exponent uncertainty": label(small),
  "flow calibration uncertainty": label(small),
  "opening calibration uncertainty": label(small),
  "indoor temperature uncertainty": label(size),
  "outdoor temperature uncertainty": label(size),
  "barometer uncertainty": label(size, { measures: "barometer" }),
  "humidity accuracy": label(small),
  "volume uncertainty": label(small),
  "envelope area uncertainty": label(small),
  "floor area uncertainty": label(small),
  "size degrees of freedom": label(size.check(z.minimum(1, "must be 1 or more"))),
  "baseline uncertainty": label(size),
  "wind coefficient": label(size),
  "offset share": label(small),
  "extrapolation above": label(small),
  "extrapolation below": label(small),
  "budget quantity": label(oneOf(budgetQuantities)),
  "monte carlo trials": label(
    number.check(z.minimum(1000, "from 1 000 to 1 000 000"), z.maximum(1e6, "from 1 000 to 1 000 000")),
  ),
  "monte carlo seed": label(size),
  units: label(oneOf(unitSystems)),
  headings: label(yesNo),
};

type Labels = typeof labels;
type Given = { [Name in keyof Labels]?: z.output<Labels[Name]["schema"]> };

/** Settings in the method's units, with what is assumed where nothing was given. */
export type Settings = Given & {
  readonly system: UnitSystem;
  readonly standard: NonNullable<Given["standard"]>;
};

function isLabel(name: string): name is keyof Labels {
  return Object.hasOwn(labels, name);
}

function parsed(name: keyof Labels, cell: unknown, row: number): unknown {
  const { schema, zeroIsValue } = labels[name] as Label<z.core.$ZodType>;
  const value = plain(cell, `settings, ${name}`, row);
  if (zeroIsValue === true ? isBlank(value) : isBlankOrZero(value)) return undefined;
  const result = z.safeParse(schema, value);
  if (result.success) return result.data;
  throw new MethodError(
    "invalid",
    "settings",
    `${name}: ${result.error.issues[0]?.message ?? "is not valid"} (got ${String(value)})`,
    row,
  );
}

/**
 * Settings from a range of two columns, label and value, in any order, blank rows allowed.
 * Errors: an unknown label (the known ones are listed), a label that stands twice, a value that breaks its rule.
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
    if (!isLabel(name)) {
      throw new MethodError(
        "invalid",
        "settings",
        `unknown label "${name}"; known are ${Object.keys(labels).join(", ")}`,
        row,
      );
    }
    if (Object.hasOwn(given, name))
      throw new MethodError("invalid", "settings", `the label "${name}" stands twice`, row);
    const value = parsed(name, cells[1], row);
    if (value !== undefined) given[name] = value;
  });
  return inMethodUnits(given);
}

function inMethodUnits(given: Given): Settings {
  const system = unitSystem(given.units);
  const converted = Object.entries(given).map(([name, value]) => {
    const { measures } = labels[name as keyof Labels] as Label<z.core.$ZodType>;
    return [name, measures === undefined ? value : toMethod(value as number, measures, system)];
  });
  return { standard: "ISO 9972", ...(Object.fromEntries(converted) as Given), system };
}

/** A setting that a calculation cannot do without. */
export function needed<Name extends keyof Given>(settings: Settings, name: Name): NonNullable<Given[Name]> {
  const value = settings[name];
  if (value === undefined || value === null) throw new MethodError("missing", "settings", `"${name}" is not given yet`);
  return value;
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

/** Density at which the flow device was calibrated; by default that of the reference conditions. */
export function calibrationDensityIn(settings: Settings): number {
  return settings["calibration density"] ?? referenceDensity;
}
