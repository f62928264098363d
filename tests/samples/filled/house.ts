/** An invented house and its fan pressurization by ISO 9972, written without a line of the project's own code; SI units throughout. */

export const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

const round = (value: number, decimals = 1) => Number(value.toFixed(decimals));

/** Dry air at 20 °C and 101 325 Pa, kg/m³. */
const reference = 1.2041;

/** Humid air: saturation pressure and gas constants of ISO 9972. */
export function density(celsius: number, pressure: number, humidity: number): number {
  const kelvin = celsius + 273.15;
  const vapour = humidity * Math.exp(59.484085 - 6790.4985 / kelvin - 5.02802 * Math.log(kelvin));
  return (pressure - 0.37802 * vapour) / (287.055 * kelvin);
}

export interface Air {
  readonly indoors: number;
  readonly outdoors: number;
  readonly barometer: number;
  readonly humidityIndoors: number;
  readonly humidityOutdoors: number;
}

export type Direction = "depressurization" | "pressurization";

/** What a flow shown at the certificate's density is worth in the leaks, and the density there. */
function flowInLeaks(direction: Direction, air: Air, calibration: number): { factor: number; leaking: number } {
  const inside = density(air.indoors, air.barometer, air.humidityIndoors);
  const outside = density(air.outdoors, air.barometer, air.humidityOutdoors);
  const [atFan, leaking] = direction === "depressurization" ? [inside, outside] : [outside, inside];
  return { factor: Math.sqrt(calibration / atFan) * (atFan / leaking), leaking };
}

/** A reading as it is typed: the pressure across the envelope, signed, and the flow that the device shows. */
export type Reading = readonly [pressure: number, flow: number];

export interface Run {
  readonly direction: Direction;
  readonly air: Air;
  readonly calibration: number;
  readonly before: readonly number[];
  readonly after: readonly number[];
  readonly readings: readonly Reading[];
}

/** Flow exponent, and flow at 50 Pa at reference conditions, of induced pressures and flows through leaks whose air has a density. */
export function fitByHand(points: readonly (readonly [pressure: number, flow: number])[], leaking: number) {
  const x = points.map(([pressure]) => Math.log(pressure));
  const y = points.map(([, flow]) => Math.log(flow));
  const [mx, my] = [mean(x), mean(y)];
  const products = x.reduce((sum, value, index) => sum + (value - mx) * ((y[index] ?? NaN) - my), 0);
  const n = products / x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  const coefficient = Math.exp(my - n * mx) * (leaking / reference) ** (1 - n);
  return { n, q50: coefficient * 50 ** n };
}

/** The same of the raw readings of a run. */
export function computeByHand({ direction, air, calibration, before, after, readings }: Run) {
  const zero = (mean(before) + mean(after)) / 2;
  const { factor, leaking } = flowInLeaks(direction, air, calibration);
  return fitByHand(
    readings.map(([pressure, flow]) => [Math.abs(pressure - zero), flow * factor]),
    leaking,
  );
}

/** Gusts, in shares of the flow: what keeps readings from lying on their line. */
const gusts = [0.004, -0.006, 0.002, 0.005, -0.003, -0.004, 0.006, 0.001, -0.005, 0.003] as const;

const baselines = [0.1, -0.3, 0.2, 0, -0.2, 0.3, -0.1, 0.2, -0.1, -0.1] as const;

interface Envelope {
  /** At reference conditions, m³/(h·Paⁿ). */
  readonly coefficient: number;
  readonly n: number;
}

interface Conditions {
  readonly air: Air;
  /** Pressure across the envelope without the fan, Pa. */
  readonly zero: number;
  readonly calibration?: number;
  /** Which gust comes first: no two runs are alike. */
  readonly turn?: number;
}

/** A run as a tester would read it from this house, on instruments that show a tenth; `show` rounds what is typed. */
export function takeRun(
  { coefficient, n }: Envelope,
  direction: Direction,
  { air, zero, calibration = reference, turn = 0 }: Conditions,
  pressures: readonly number[],
  show: (flow: number) => number = round,
): Run {
  const { factor, leaking } = flowInLeaks(direction, air, calibration);
  const sign = direction === "depressurization" ? -1 : 1;
  const shift = turn + (direction === "depressurization" ? 0 : 3);
  const around = (turn: number) =>
    baselines.map((_, index) => round(zero + (baselines[(index + turn) % baselines.length] ?? 0)));
  const readings = pressures.map((wanted, index): Reading => {
    const gust = 1 + (gusts[(index + shift) % gusts.length] ?? 0);
    // Nobody sets a pressure to the last tenth.
    const induced = wanted * (1 + 4 * (gusts[(3 * index + shift) % gusts.length] ?? 0));
    const flow = coefficient * (leaking / reference) ** (n - 1) * induced ** n * gust;
    return [round(sign * induced + zero), show(flow / factor)];
  });
  return { direction, air, calibration, before: around(shift), after: around(shift + 4), readings };
}
