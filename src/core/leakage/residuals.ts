import type { LeakageFit } from "./curve";
import { leastSquaresLine, logFlowAt } from "./line";
import { pressuresVary, type LeakageReading } from "./readings";

/** How one reading sits on the fitted line. */
export interface Residual {
  readonly fittedFlow: number;
  /** (reading − fitted)/fitted, a fraction. */
  readonly relative: number;
}

/** How much one reading pulls the line. Absent numbers: without this reading the line is not determined. */
export interface Influence {
  readonly leverage: number;
  readonly cooksDistance?: number;
  readonly exponentWithout?: number;
  readonly flowWithout?: number;
}

/** Fitted flow at a reading's pressure and the relative residual of its flow. */
export function residualOf(fit: LeakageFit, { pressure, flow }: LeakageReading): Residual {
  const logResidual = Math.log(flow) - logFlowAt(fit, Math.log(pressure));
  return { fittedFlow: flow * Math.exp(-logResidual), relative: Math.expm1(logResidual) };
}

/**
 * Leverage of a reading, its Cook's distance, and the exponent and the flow at a pressure that the other readings give without it. The line is
 * fitted again without the reading: the closed forms lose their digits just where a single reading carries the line.
 * @param readings The readings of the ordinary fit; `reading` is one of them.
 * Source: R. D. Cook, "Detection of influential observation in linear regression", Technometrics 19 (1977) 15–18.
 */
export function influenceOf(
  fit: LeakageFit,
  readings: readonly LeakageReading[],
  reading: LeakageReading,
  atPressure: number,
): Influence {
  const logPressure = Math.log(reading.pressure);
  const distance = logPressure - fit.meanLogPressure;
  const leverage = 1 / fit.count + distance ** 2 / fit.sumOfSquaresOfLogPressure;
  const others = readings.filter((other) => other !== reading);
  if (!pressuresVary(others)) return { leverage };
  const without = leastSquaresLine(others);
  const miss = Math.log(reading.flow) - logFlowAt(without, logPressure);
  const variance = fit.residualDeviation ** 2;
  return {
    leverage,
    cooksDistance: variance > 0 ? (miss ** 2 * leverage) / (2 * variance) : 0,
    exponentWithout: without.exponent,
    flowWithout: Math.exp(logFlowAt(without, Math.log(atPressure))),
  };
}
