import { logFlowAt, type LeakageFit } from "./curve";
import type { LeakageReading } from "./readings";

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
  const fittedFlow = Math.exp(logFlowAt(fit, Math.log(pressure)));
  return { fittedFlow, relative: flow / fittedFlow - 1 };
}

/**
 * Leverage, Cook's distance, and the exponent and the flow at a pressure that the fit would give without this reading. Exact closed forms of
 * leaving one out of an ordinary line, in logarithms.
 * Source: R. D. Cook, "Detection of influential observation in linear regression", Technometrics 19 (1977) 15–18; Cook and Weisberg,
 * Residuals and Influence in Regression (1982), ch. 2 and 3.
 */
export function influenceOf(fit: LeakageFit, { pressure, flow }: LeakageReading, atPressure: number): Influence {
  const logPressure = Math.log(pressure);
  const h = logPressure - fit.meanLogPressure;
  const leverage = 1 / fit.count + (h * h) / fit.sumOfSquaresOfLogPressure;
  const rest = 1 - leverage;
  if (!(rest > 1e-9)) return { leverage };
  const residual = Math.log(flow) - logFlowAt(fit, logPressure);
  const scaledResidual = residual / rest;
  const logAt = Math.log(atPressure);
  const weightAt = 1 / fit.count + ((logAt - fit.meanLogPressure) * h) / fit.sumOfSquaresOfLogPressure;
  const variance = fit.residualDeviation ** 2;
  return {
    leverage,
    cooksDistance: variance > 0 ? ((scaledResidual * scaledResidual) / (2 * variance)) * leverage : 0,
    exponentWithout: fit.exponent - (h / fit.sumOfSquaresOfLogPressure) * scaledResidual,
    flowWithout: Math.exp(logFlowAt(fit, logAt) - weightAt * scaledResidual),
  };
}
