import {
  airDensity,
  densityCorrection,
  fanFlow,
  normal,
  ofOpening,
  prepare,
  rectangular,
  type ModelReading,
  type PreparedTest,
  type Source,
  type Standard,
} from "../../../src/core";
import type vectors from "../uncertainty-vectors/vectors.json";

type Inputs = (typeof vectors.budgets)[number]["inputs"];

const openingOf = (inputs: Inputs, name: string) => {
  const found = (inputs.openings as Record<string, { coefficient: number; exponent: number; pivot_Pa: number }>)[name];
  if (!found) throw new Error(`no opening ${name}`);
  return found;
};

/** One direction of a budget of the vectors, as the core takes it. */
export function preparedTest(inputs: Inputs, index: number, standard: Standard): PreparedTest {
  const given = inputs.directions[index];
  if (!given) throw new Error(`no direction ${index}`);
  const direction = given.direction === "depressurization" ? "depressurization" : "pressurization";
  const air = {
    temperature: { indoor: inputs.indoor_temperature, outdoor: inputs.outdoor_temperature },
    humidity: { indoor: inputs.indoor_humidity, outdoor: inputs.outdoor_humidity },
    barometricPressure: inputs.barometer,
  };
  const density = (side: "indoor" | "outdoor") =>
    airDensity({ temperature: air.temperature[side], humidity: air.humidity[side], pressure: inputs.barometer });
  const both = { indoor: density("indoor"), outdoor: density("outdoor") };
  const atDevice = direction === "depressurization" ? both.indoor : both.outdoor;
  const readings = given.readings.map((pressure, row): ModelReading => {
    const name = given.opening[row] ?? "";
    const { coefficient, exponent, pivot_Pa } = openingOf(inputs, name);
    const fanPressure = given.fan_pressures[row] ?? NaN;
    const flow = fanFlow(
      fanPressure,
      { coefficient, exponent },
      { calibration: inputs.calibration_density, actual: atDevice },
    );
    return {
      row: row + 1,
      pressure,
      flow: flow * densityCorrection(direction, both),
      fan: {
        opening: name.charCodeAt(0) - 65,
        exponent,
        pressure: fanPressure,
        logOverPivot: Math.log(fanPressure / pivot_Pa),
      },
      time: given.time_fraction[row] ?? NaN,
    };
  });
  return prepare({
    direction,
    readings,
    baselineBefore: given.baseline_before,
    baselineAfter: given.baseline_after,
    air,
    standard,
    technique: "ordinary",
    allowance: { above: 0.06, below: 0.1 },
  });
}

interface Stated {
  readonly u: number;
  readonly dof: number | string;
}

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
} as const;

const rectangularOnes = new Set("off_e off_f bconst drift wind stack phii phie gain_e gain_f".split(" "));

/** A row of the vectors as a source. */
export function sourceOf(name: string, { u, dof }: Stated, symbol = name): Source {
  const [kind, opening] = name.split("_");
  const freedom = typeof dof === "number" ? dof : Infinity;
  if (opening !== undefined && kind === "gam")
    return ofOpening(normal("gam", "openingGain", u, freedom), opening.charCodeAt(0) - 65);
  if (opening !== undefined && kind === "m")
    return ofOpening(normal("m", "openingExponent", u, freedom), opening.charCodeAt(0) - 65);
  const effect = effects[name as keyof typeof effects];
  return rectangularOnes.has(name) ? rectangular(symbol, effect, u * Math.sqrt(3)) : normal(symbol, effect, u, freedom);
}

export function sourcesOf(inputs: Inputs, index: number): { shared: Source[]; own: Source[] } {
  const shared = Object.entries(inputs.shared_u).map(([name, stated]) => sourceOf(name, stated));
  const own = Object.entries(inputs.direction_u[index] ?? {}).map(([name, stated]) =>
    sourceOf(name, stated, `${name}${index}`),
  );
  return { shared, own };
}

/** What the tester states of one reading. */
export function noiseOf(inputs: Inputs, index: number) {
  const given = inputs.directions[index];
  if (!given) throw new Error(`no direction ${index}`);
  return { pressure: given.u_reading_Pa, fan: given.u_fan_pressure_relative };
}
