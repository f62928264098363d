import { MethodError, require, requirePositive } from "../errors";
import { mean } from "../statistics/sums";

/** One reading of the air leakage graph: induced pressure as a magnitude, Pa, and flow through the envelope, m³/h. */
export interface LeakageReading {
  readonly pressure: number;
  readonly flow: number;
  /** Where it stands in the input, counted from 1. */
  readonly row: number;
}

/** The readings on logarithmic axes, x = ln Δp and y = ln q, as deviations from their means. */
export interface CentredLogs {
  readonly count: number;
  readonly meanX: number;
  readonly meanY: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly sumXX: number;
  readonly sumXY: number;
  readonly sumYY: number;
}

/** The least number of readings from which a line and its uncertainty follow. */
export const fewestReadings = 3;

/**
 * Centred logarithms of the readings. Centred, because sums of raw squares lose the digits that matter (Wilkinson's BIG column).
 * Errors: fewer than three readings (missing); a pressure or flow not above 0; pressures that do not vary.
 */
export function centredLogs(readings: readonly LeakageReading[]): CentredLogs {
  const count = readings.length;
  if (count < fewestReadings) {
    throw new MethodError(
      "missing",
      "pressures",
      `${fewestReadings} readings needed for a line and its uncertainty, ${count} so far`,
    );
  }
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  readings.forEach(({ pressure, flow, row }, index) => {
    requirePositive(pressure, "pressures", row);
    requirePositive(flow, "flows", row);
    x[index] = Math.log(pressure);
    y[index] = Math.log(flow);
  });
  const [meanX, meanY] = [mean(x), mean(y)];
  let [sumXX, sumXY, sumYY] = [0, 0, 0];
  for (let index = 0; index < count; index++) {
    const h = (x[index]! -= meanX);
    const k = (y[index]! -= meanY);
    sumXX += h * h;
    sumXY += h * k;
    sumYY += k * k;
  }
  require(varies(
    readings.map(({ pressure }) => pressure),
  ), "pressures", "the pressures do not vary: a line needs different pressures");
  return { count, meanX, meanY, x, y, sumXX, sumXY, sumYY };
}

function varies(values: readonly number[]): boolean {
  return values.some((value) => value !== values[0]);
}
