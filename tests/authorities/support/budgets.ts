import {
  airDensity,
  analyzeBaselines,
  densityCorrection,
  fanFlow,
  normal,
  ofOpening,
  prepare,
  rectangular,
  type BaselineSet,
  type BudgetSources,
  type ModelReading,
  type PreparedTest,
  type Source,
  type Standard,
} from "../../../src/core";
import type { BudgetInputs, DirectionInputs } from "../uncertainty-vectors/program/inputs";
import type { budgets } from "../uncertainty-vectors/program/stored";

type Budget = (typeof budgets)[number];

/** Degrees of freedom as the core takes them. */
export const freedom = (given: number | "infinite") => (given === "infinite" ? Infinity : given);

/** What is assumed of the gauge and of a single baseline value, Pa. */
export const gauge = { resolution: 0.1, ofOne: 0.2 };

const mean = (rows: readonly number[]) => rows.reduce((sum, row) => sum + row, 0) / rows.length;

/** Fraction of the time from the baseline before to that after; by the order of the readings where no times are given. */
function timesOf({ readings, times, baseline_times }: DirectionInputs): number[] {
  if (times === null || baseline_times === null) return readings.map((_, row) => (row + 0.5) / readings.length);
  const [before, after] = baseline_times;
  return times.map((time) => (time - before) / (after - before));
}

/** Density of the air on both sides. */
export function densitiesOf(inputs: BudgetInputs): { indoor: number; outdoor: number } {
  const pressure = inputs.barometer;
  return {
    indoor: airDensity({ temperature: inputs.indoor_temperature, humidity: inputs.indoor_humidity, pressure }),
    outdoor: airDensity({ temperature: inputs.outdoor_temperature, humidity: inputs.outdoor_humidity, pressure }),
  };
}

/** Means of the baseline before and after: as stated, else as their rows tell. */
export function baselineSetsOf(given: DirectionInputs): readonly [BaselineSet, BaselineSet | undefined] {
  const { before, after } = analyzeBaselines(given.baseline_before, given.baseline_after ?? undefined, gauge);
  const stated = given.baseline_u?.map(({ u, dof }) => ({ uncertainty: u, degreesOfFreedom: freedom(dof) }));
  return [stated?.[0] ?? before, stated?.[1] ?? after];
}

/** One direction of a budget of the vectors, as the core takes it. */
export function preparedTest(
  { inputs, expected }: Budget,
  index: number,
  standard: Standard = inputs.standard,
): PreparedTest {
  const given = inputs.directions[index];
  const noise = expected.random[index];
  if (!given || !noise) throw new Error(`no direction ${index}`);
  const { direction, pressure_uncertainty: ofPressure, flow_uncertainty: ofFlow } = given;
  const densities = densitiesOf(inputs);
  const density = {
    calibration: inputs.calibration_density,
    actual: direction === "depressurization" ? densities.indoor : densities.outdoor,
  };
  const times = timesOf(given);
  const readings = given.readings.map((pressure, row): ModelReading => {
    const name = given.opening[row] ?? "";
    const opening = inputs.openings[name];
    const fanPressure = given.fan_pressures[row] ?? NaN;
    if (!opening) throw new Error(`no opening ${name}`);
    const flow = fanFlow(fanPressure, opening, density) * densityCorrection(direction, densities);
    return {
      row: row + 1,
      pressure,
      flow,
      ...(ofPressure !== null && { pressureUncertainty: ofPressure }),
      ...(ofFlow !== null && { flowUncertainty: ofFlow * flow }),
      fan: {
        opening: openingOf(name),
        exponent: opening.exponent,
        pressure: fanPressure,
        logOverPivot: Math.log(fanPressure / opening.pivot_Pa),
      },
      time: times[row] ?? NaN,
    };
  });
  return prepare({
    direction,
    readings,
    baselineBefore: mean(given.baseline_before),
    ...(given.baseline_after && { baselineAfter: mean(given.baseline_after) }),
    zeroFollowsTime: given.times !== null,
    air: {
      temperature: { indoor: inputs.indoor_temperature, outdoor: inputs.outdoor_temperature },
      humidity: { indoor: inputs.indoor_humidity, outdoor: inputs.outdoor_humidity },
      barometricPressure: inputs.barometer,
    },
    standard,
    technique: inputs.technique,
    noise: {
      pressure: noise.pressure_uncertainty,
      flow: noise.flow_uncertainty,
      stated: ofPressure !== null && ofFlow !== null,
    },
  });
}

const openingOf = (name: string) => name.charCodeAt(0) - "A".charCodeAt(0);

/** The vectors' names of the rows and what they act on. */
const effects = {
  gain_e: "gaugeGain",
  off_e: "offset",
  device_zero: "offset",
  mu: "offset",
  wind: "offset",
  stack: "offset",
  gain_f: "fanGain",
  off_f: "fanZero",
  gam0: "flowGain",
  ti: "indoorTemperature",
  te: "outdoorTemperature",
  pb: "barometer",
  phii: "indoorHumidity",
  phie: "outdoorHumidity",
  vol: "size",
  B1: "baselineBefore",
  B2: "baselineAfter",
  bconst: "baseline",
  drift: "drift",
  model: "extrapolation",
} as const;

const rectangularOnes = new Set("off_e off_f bconst wind stack phii phie gain_e gain_f model".split(" "));

/** A row of the vectors as a source. */
export function sourceOf(name: string, u = 1, degreesOfFreedom = Infinity, symbol = name): Source {
  const [kind, opening] = name.split("_");
  if (opening !== undefined && (kind === "gam" || kind === "m")) {
    const effect = kind === "gam" ? "openingGain" : "openingExponent";
    return ofOpening(normal(kind, effect, u, degreesOfFreedom), openingOf(opening));
  }
  const effect = effects[name as keyof typeof effects];
  return rectangularOnes.has(name)
    ? rectangular(symbol, effect, u * Math.sqrt(3))
    : normal(symbol, effect, u, degreesOfFreedom);
}

/** The rows of one direction but its random one: those of every direction, and those whose name ends with its number. */
export function sourcesOf({ inputs, expected }: Budget, index: number): BudgetSources {
  const means = inputs.baseline_shared ? ["B1", "B2"] : [];
  const common = new Set([...Object.keys(inputs.shared_u), "stack", "model", ...means]);
  const source = ({ source: symbol, u, dof }: Budget["expected"]["rows"][number]) =>
    sourceOf(common.has(symbol) ? symbol : symbol.slice(0, -1), u, freedom(dof), symbol);
  const own = expected.rows.filter(
    ({ source: symbol }) => !common.has(symbol) && symbol.endsWith(String(index)) && !symbol.startsWith("random"),
  );
  return { shared: expected.rows.filter((row) => common.has(row.source)).map(source), own: own.map(source) };
}
