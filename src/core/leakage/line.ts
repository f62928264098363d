import { centredLogs, type LeakageReading } from "./readings";

/** Least-squares line of ln q on ln Δp with what its uncertainty needs. */
export interface Line {
  readonly count: number;
  readonly exponent: number;
  readonly meanLogPressure: number;
  readonly meanLogFlow: number;
  readonly sumOfSquaresOfLogPressure: number;
  readonly sumOfSquaresOfLogFlow: number;
  /** Sum of the squared residuals of ln q. */
  readonly residualSum: number;
}

/**
 * Least-squares line through the logarithms: n = S_xy/S_xx. The residual sum is taken from the residuals themselves: S_yy − n·S_xy would lose
 * every digit on readings that fit exactly. The readings must be above 0 and their pressures must vary.
 * Source: ISO 9972:2015, regression (from memory); ASTM E779; recomputed against a published worked example.
 */
export function leastSquaresLine(readings: readonly LeakageReading[]): Line {
  const { mean: meanLogPressure, deviations: x } = centredLogs(readings.map(({ pressure }) => pressure));
  const { mean: meanLogFlow, deviations: y } = centredLogs(readings.map(({ flow }) => flow));
  let [sumXX, sumXY, sumYY] = [0, 0, 0];
  for (let index = 0; index < x.length; index++) {
    const [h, k] = [x[index]!, y[index]!];
    sumXX += h * h;
    sumXY += h * k;
    sumYY += k * k;
  }
  const exponent = sumXY / sumXX;
  let residualSum = 0;
  for (let index = 0; index < x.length; index++) residualSum += (y[index]! - exponent * x[index]!) ** 2;
  return {
    count: x.length,
    exponent,
    meanLogPressure,
    meanLogFlow,
    sumOfSquaresOfLogPressure: sumXX,
    sumOfSquaresOfLogFlow: sumYY,
    residualSum,
  };
}

/** ln of the line's flow at ln Δp; through the means of the readings, where the line is known best. */
export function logFlowAt(
  { meanLogFlow, meanLogPressure, exponent }: Pick<Line, "meanLogFlow" | "meanLogPressure" | "exponent">,
  logPressure: number,
): number {
  return meanLogFlow + exponent * (logPressure - meanLogPressure);
}
