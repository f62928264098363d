import { unitNames } from "../../../src/core/index";
import metadata from "../../../src/functions/functions.json";
import { uncertaintyBudget } from "../../../src/functions/index";
import type { House } from "./house";
import { settingsOf } from "./settings";

export interface Parameter {
  readonly name: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
  readonly customEnumId?: string;
}

const lists = new Map(metadata.enums.map(({ id, values }) => [id, values.map(({ stringValue }) => stringValue)]));

const units = unitNames();

const column = (values: readonly unknown[]) => values.map((value) => [value]);

/** Sound values of parameters that hold a column of anything but sizes, by name. */
const readings: Readonly<Record<string, (house: House) => unknown>> = {
  pressures: (house) => column(signedPressures(house)),
  readings: (house) => column(signedPressures(house)),
  flows: flowsOf,
  baseline_before: ({ baselines }) => column(baselines),
  baseline_after: ({ baselines }) => column(baselines.slice(1)),
  before: ({ baselines }) => column(baselines),
  after: ({ baselines }) => column(baselines.slice(2)),
  include: ({ pressures, given }) => column(pressures.map((_, index) => (given[index] === true ? "yes" : ""))),
  settings: settingsOf,
  other_direction: otherDirection,
  corners: ({ pressures, scatter, size }) =>
    pressures.map((_, index) => {
      const angle = (2 * Math.PI * index) / pressures.length;
      const radius = size * (scatter[index] ?? 1);
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }),
  table: ({ pressures, scatter }) => [...pressures].sort((a, b) => a - b).map((p, i) => [p, p * (scatter[i] ?? 1)]),
  log: (house) =>
    Array.from({ length: 60 }, (_, second) => {
      const pressure = signedPressures(house)[Math.floor(second / 15) % house.pressures.length] ?? 50;
      return [
        45_000 + second / 86_400,
        pressure * (house.scatter[second % 12] ?? 1),
        100 * (house.scatter[second % 7] ?? 1),
      ];
    }),
  repairs: ({ scatter }) => scatter.slice(0, 3).map((one) => [20 * one, 15, 25]),
  validity: ({ given }) => column([given[0] === true ? "met" : "not met"]),
  temperature: ({ temperature, rows }) => repeated(temperature, rows),
  indoor_temperature: ({ rows }) => repeated(21, rows),
  outdoor_temperature: ({ temperature, rows }) => repeated(temperature, rows),
  barometric_pressure: ({ fraction, rows }) => repeated(90_000 + 14_000 * fraction, rows),
  sea_level_pressure: ({ fraction }) => [[95_000 + 9_000 * fraction]],
  discharge_coefficient: ({ fraction }) => [[0.3 + 0.7 * fraction]],
  confidence: ({ fraction }) => [[0.5 + 0.49 * fraction]],
  exponent: ({ exponent, rows }) => repeated(exponent, rows),
  exponents: ({ exponent, rows }) => repeated(exponent, rows),
  rated_pressures: ({ rows }) => repeated(100, rows),
  roof_shape: ({ word }) => [[["flat", "gable", "hip", "mono-pitch"][word % 4]]],
  lowest: ({ fraction }) => [[5 + 20 * fraction]],
  highest: ({ fraction }) => [[55 + 30 * fraction]],
  at: ({ fraction }) => [[4 + 96 * fraction]],
  baseline: ({ baselines }) => column(baselines),
  fan_pressures: ({ fraction, rows }) => repeated(10 + 40 * fraction, rows),
  calibration_density: () => [[1.2041]],
  actual_density: ({ fraction, rows }) => repeated(1.1 + fraction / 5, rows),
  count: ({ rows }) => [[rows + 2]],
  standard_uncertainty: ({ fraction, size, rows }) => repeated((0.001 + 0.2 * fraction) * size, rows),
  prior_mean: ({ size, scatter }) => [[size * (scatter[0] ?? 1)]],
  prior_deviation: ({ size, fraction }) => [[(0.01 + 0.4 * fraction) * size]],
  degrees_of_freedom: ({ word, rows }) => repeated(1 + (word % 60), rows),
  decimals: ({ word }) => [[["", "0", 1, 2][word % 4]]],
  from: ({ word }) => units[word % units.length],
  to: ({ word }) => units[(word >> 4) % units.length],
};

const fractions = /humidity|uncertainty|tolerance/;

/** The same name means another thing in some functions. */
const ownReadings: Readonly<Record<string, (house: House) => unknown>> = {
  "DECISIONRISK result": ({ size }) => [[size]],
  "DECISIONRISK standard_uncertainty": ({ size, fraction }) => [[(0.001 + 0.2 * fraction) * size]],
  "DECISIONRISK target": ({ size, scatter }) => [[size * (scatter[1] ?? 1)]],
  "DECISIONRISK degrees_of_freedom": ({ word }) => [[1 + (word % 60)]],
  "ENSCORE expanded_uncertainty": ({ size, fraction, rows }) => repeated((0.02 + fraction) * size, rows),
  "ENSCORE other_expanded_uncertainty": ({ size, fraction, rows }) => repeated((0.02 + fraction) * size, rows),
  "ENSCORE common_uncertainty": ({ fraction }) => [[0.009 * fraction]],
  "ENSCORE coverage_factor": ({ fraction }) => [[1 + fraction]],
  "ENSCORE other_coverage_factor": ({ fraction }) => [[2 + fraction]],
  "FANDEMAND openings": ({ scatter }) =>
    scatter.slice(0, 3).map((one, index) => [`ring ${index}`, 90 * one, 0.5, 10, 400]),
  "FINALFORECAST openings": ({ scatter }) => scatter.slice(0, 2).map((one) => [10 * one]),
  "TWOPOINTFLOW pressures": (house) => column(signedPressures(house).slice(0, 2)),
  "TWOPOINTFLOW flows": (house) =>
    column(
      flowsOf(house)
        .slice(0, 2)
        .map(([flow]) => flow),
    ),
  "LEAKAGEFIT pressure_uncertainty": (house) => (takesUncertainty(house) ? [[house.fraction]] : null),
  "LEAKAGEFIT flow_uncertainty": (house) =>
    takesUncertainty(house) ? flowsOf(house).map(([flow]) => [Number(flow) / 50]) : null,
  "LOGSTATIONS settings": (house) => [
    ["columns", "time, pressure, flow"],
    ...settingsOf(house).filter(([label]) => label !== "columns" && !String(label).startsWith("fan ")),
  ],
  "PRESSURESTATIONS baseline": ({ baselines }) => column(baselines.slice(0, 1)),
  "LEAKAGEAREA pressure": pressureOfCustom,
  "AREAFLOW pressure": pressureOfCustom,
  "LEAKAGEAREA discharge_coefficient": coefficientOfCustom,
  "AREAFLOW discharge_coefficient": coefficientOfCustom,
};

/** A sound argument for a parameter; optional ones are left out now and then. */
export function argumentOf(id: string, parameter: Parameter, index: number, house: House): unknown {
  const { name, dimensionality, optional, customEnumId } = parameter;
  if (optional === true && house.given[index] === true && name !== "settings") return null;
  const own = ownReadings[`${id} ${name}`] ?? readings[name];
  if (name === "direction") return house.direction;
  if (own) return own(house);
  const list = lists.get(customEnumId ?? "");
  if (list) return list[house.word % list.length];
  if (dimensionality !== "matrix") return house.given[11] === true ? "yes" : "no";
  return repeated(fractions.test(name) ? house.fraction : house.size, house.rows);
}

/** Two of the techniques weight by nothing. */
function takesUncertainty({ word }: House): boolean {
  const techniques = lists.get("technique") ?? [];
  return !["ordinary", "organic correlation"].includes(techniques[word % techniques.length] ?? "");
}

/** Only the definition "custom" takes a pressure and a coefficient of its own. */
function isCustom({ word }: House): boolean {
  const definitions = lists.get("definition") ?? [];
  return definitions[word % definitions.length] === "custom";
}

function pressureOfCustom(house: House): unknown {
  return isCustom(house) ? [[4]] : null;
}

function coefficientOfCustom(house: House): unknown {
  return isCustom(house) ? [[0.8]] : null;
}

/** The budget of the same house in the other direction, as it would stand on the sheet. */
function otherDirection(house: House): unknown {
  const direction: House["direction"] = house.direction === "pressurization" ? "depressurization" : "pressurization";
  const other = { ...house, direction };
  try {
    const settings = settingsOf(house).filter(([label]) => label !== "monte carlo trials");
    return uncertaintyBudget(direction, column(signedPressures(other)), flowsOf(other), [[0.5]], [[0.5]], settings);
  } catch {
    return null;
  }
}

/** A column of nearly the same value; a single cell where there are no rows. */
function repeated(value: number, rows: number): unknown[][] {
  return Array.from({ length: Math.max(1, rows) }, (_, row) => [value * (1 + row / 100)]);
}

function signedPressures({ direction, pressures }: House): number[] {
  return pressures.map((pressure) => (direction === "depressurization" ? -pressure : pressure));
}

function flowsOf({ coefficient, exponent, pressures, scatter, columns }: House): unknown[][] {
  return pressures.map((pressure, row) => {
    const flow = coefficient * Math.pow(pressure, exponent) * (scatter[row] ?? 1);
    return Array.from({ length: columns }, () => flow / columns);
  });
}
