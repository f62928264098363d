import { MethodError, ensure, requirePositive } from "../errors";
import { mean } from "../statistics/sums";

/** One reading of the air leakage graph: induced pressure as a magnitude, Pa, and flow through the envelope, m³/h. */
export interface LeakageReading {
  readonly pressure: number;
  readonly flow: number;
  /** Where it stands in the input, counted from 1. */
  readonly row: number;
  /** When it was read, in any unit that the times of the baselines have too; absent where not given. */
  readonly time?: number | undefined;
  /** Standard uncertainty of the pressure, Pa, from what varies from reading to reading only. */
  readonly pressureUncertainty?: number | undefined;
  /** Standard uncertainty of the flow, in its unit, from what varies from reading to reading only. */
  readonly flowUncertainty?: number | undefined;
  /** True where the uncertainties are only assumed: they weigh the reading, and the scatter says how large they are. */
  readonly isAssumed?: boolean | undefined;
  /** Correlation of the errors of ln Δp and ln q, above −1 and below 1; 0 where not given. */
  readonly correlation?: number | undefined;
}

/** Logarithms of one quantity as deviations from their mean. */
export interface CentredLogs {
  readonly mean: number;
  readonly deviations: readonly number[];
}

/** The least number of readings from which a line and its uncertainty follow. */
const fewestReadings = 3;

/** Errors: fewer than three readings (missing); a pressure or flow not above 0; pressures that do not vary. */
export function requireFittable(readings: readonly LeakageReading[]): void {
  const count = readings.length;
  if (count < fewestReadings) {
    const rule = `${fewestReadings} readings needed for a line and its uncertainty, ${count} so far`;
    throw new MethodError("missing", "pressures", rule);
  }
  for (const { pressure, flow, row } of readings) {
    requirePositive(pressure, "pressures", row);
    requirePositive(flow, "flows", row);
  }
  ensure(pressuresVary(readings), "pressures", "the pressures do not vary: a line needs different pressures");
}

/** True where at least two pressures differ. */
export function pressuresVary(readings: readonly LeakageReading[]): boolean {
  return readings.some(({ pressure }) => pressure !== readings[0]?.pressure);
}

/** ln(value/reference); where they are near, from their difference, which is exact, so that nearly equal readings keep their digits. */
function logRatio(value: number, reference: number): number {
  const difference = value - reference;
  return Math.abs(difference) < reference / 2 ? Math.log1p(difference / reference) : Math.log(value / reference);
}

/**
 * Natural logarithms of values above 0, centred: sums of raw squares would lose the digits that matter (Wilkinson's BIG column), and so would
 * logarithms of nearly equal values subtracted from each other.
 */
export function centredLogs(values: readonly number[]): CentredLogs {
  const reference = values[0]!;
  const logs = values.map((value) => logRatio(value, reference));
  const shift = mean(logs);
  return { mean: Math.log(reference) + shift, deviations: logs.map((log) => log - shift) };
}
