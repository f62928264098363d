import type { LeakageFit } from "./curve";
import { leastSquaresLine, logFlowAt } from "./line";
import { techniqueInfluences } from "./technique-influences";
import { rounding, type Influence } from "./influence";
import { centredLogs, pressuresVary, type LeakageReading } from "./readings";

/** How one reading sits on the fitted line. */
export interface Residual {
  readonly fittedFlow: number;
  /** (reading − fitted)/fitted, a fraction. */
  readonly relative: number;
}

/** Fitted flow at a reading's pressure and the relative residual of its flow. */
export function residualOf(fit: LeakageFit, { pressure, flow }: LeakageReading): Residual {
  const logResidual = Math.log(flow) - logFlowAt(fit, Math.log(pressure));
  return { fittedFlow: flow * Math.exp(-logResidual), relative: Math.expm1(logResidual) };
}

/**
 * Leverage of each reading, its Cook's distance, and the exponent and the flow at a pressure that the other readings give without it. The line is
 * fitted again without the reading: the closed forms lose their digits just where a single reading carries the line.
 * What the words mean for a technique other than the ordinary one, techniqueInfluences says.
 * @param fit The fit of these readings.
 * Source: R. D. Cook, "Detection of influential observation in linear regression", Technometrics 19 (1977) 15–18.
 */
export function influences(fit: LeakageFit, readings: readonly LeakageReading[], atPressure: number): Influence[] {
  if (fit.technique !== "ordinary") return techniqueInfluences(fit, fit.technique, readings, atPressure);
  const { deviations } = centredLogs(readings.map(({ pressure }) => pressure));
  return readings.map((reading, index) => {
    const leverage = 1 / fit.count + deviations[index]! ** 2 / fit.sumOfSquaresOfLogPressure;
    const others = readings.filter((other) => other !== reading);
    if (!pressuresVary(others)) return { leverage };
    const without = leastSquaresLine(others);
    const miss = Math.log(reading.flow) - logFlowAt(without, Math.log(reading.pressure));
    const deviation = fit.residualDeviation;
    return {
      leverage,
      cooksDistance: deviation > rounding ? ((miss / deviation) ** 2 * leverage) / 2 : 0,
      exponentWithout: without.exponent,
      flowWithout: Math.exp(logFlowAt(without, Math.log(atPressure))),
    };
  });
}
