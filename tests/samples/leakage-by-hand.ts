import { studentQuantile } from "./student-by-hand";

/** Formulas of a fan pressurization test, written from the published ones without a line of the project's own code. */

export const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Dry air at 20 °C and 101 325 Pa. */
const reference = 1.2041;

/** Humid air, kg/m³; a relative humidity of 50 % where none is given. */
function density(celsius: number, pressure: number, humidity = 0.5): number {
  const kelvin = celsius + 273.15;
  const vapour = humidity * Math.exp(59.484085 - 6790.4985 / kelvin - 5.02802 * Math.log(kelvin));
  return (pressure - 0.37802 * vapour) / (287.055 * kelvin);
}

export interface Air {
  readonly indoors: number;
  readonly outdoors: number;
  readonly barometer: number;
}

/** Depressurization: from the flow shown at calibration density to the flow through the leaks, before the reference conditions. */
function toLeaks({ indoors, outdoors, barometer }: Air): { factor: number; leaking: number } {
  const [inside, outside] = [density(indoors, barometer), density(outdoors, barometer)];
  return { factor: Math.sqrt(reference / inside) * (inside / outside), leaking: outside };
}

/** The same with the reference conditions of ISO 9972, for an exponent. */
export function referenceFactor(air: Air, n: number): number {
  const { factor, leaking } = toLeaks(air);
  return factor * (leaking / reference) ** (1 - n);
}

export interface HandFit {
  readonly n: number;
  readonly q50: number;
  /** Standard error of n. */
  readonly nError: number;
  /** Standard error of ln q at 50 Pa, by ISO 9972. */
  readonly logError: number;
  /** N − 2. */
  readonly freedom: number;
}

/** Ordinary line through the logarithms of a depressurization, at reference conditions. */
export function fitByHand(
  air: Air,
  before: readonly number[],
  after: readonly number[],
  readings: readonly (readonly [pressure: number, flow: number])[],
): HandFit {
  const baseline = (mean(before) + mean(after)) / 2;
  const { factor, leaking } = toLeaks(air);
  const points = readings.map(
    ([pressure, flow]) => [Math.log(Math.abs(pressure - baseline)), Math.log(flow * factor)] as const,
  );
  const [x, y] = [mean(points.map(([one]) => one)), mean(points.map(([, one]) => one))];
  const sum = (of: (a: number, b: number) => number) => points.reduce((total, [a, b]) => total + of(a - x, b - y), 0);
  const [xx, yy, xy] = [sum((a) => a * a), sum((_, b) => b * b), sum((a, b) => a * b)];
  const n = xy / xx;
  const count = points.length;
  // The standard's variances have the divisor N − 1.
  const nError = Math.sqrt((yy - n * xy) / (count - 1) / (count - 2)) / Math.sqrt(xx / (count - 1));
  // ln q50 = ln C + (1 − n)·ln(ρ/ρ0) + n·ln 50: the reference conditions move the place on the line at which n counts.
  const place = Math.log(50) - Math.log(leaking / reference);
  const logError = nError * Math.sqrt(xx / count + (place - x) ** 2);
  const q50 = Math.exp(y - n * x) * (leaking / reference) ** (1 - n) * 50 ** n;
  return { n, q50, nError, logError, freedom: count - 2 };
}

/** A round, sharp hole (C_d 0.6) that passes a flow in m³/h at 50 Pa: its area in cm². */
export function holeArea(flow: number): number {
  return (flow / 3600 / 0.6) * Math.sqrt(reference / 2 / 50) * 10_000;
}

interface HandDifference {
  readonly change: number;
  readonly uncertainty: number;
  readonly isSignificant: boolean;
}

/** A flow, its standard uncertainty, and the degrees of freedom of that. */
export type HandFlow = readonly [flow: number, u: number, freedom?: number];

/** Two flows with standard uncertainties that share a relative part. */
export function differenceByHand(
  [before, uBefore, freedomBefore = Infinity]: HandFlow,
  [after, uAfter, freedomAfter = Infinity]: HandFlow,
  common: number,
): HandDifference {
  const own = (flow: number, u: number) => Math.sqrt(u ** 2 - (common * flow) ** 2);
  const [one, two] = [own(before, uBefore), own(after, uAfter)];
  const change = before - after;
  const ratio = Math.hypot(one / before, two / after);
  const quarters = (uBefore / before) ** 4 / freedomBefore + (uAfter / after) ** 4 / freedomAfter;
  const coverage = quarters === 0 ? 1.959963984540054 : studentQuantile(0.95, ratio ** 4 / quarters);
  return {
    change,
    uncertainty: Math.hypot(one, two, common * change),
    isSignificant: Math.abs(Math.log(before / after)) > coverage * ratio,
  };
}
