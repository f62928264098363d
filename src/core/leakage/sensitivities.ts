import type { LeakageFit } from "./curve";
import { centredLogs, type LeakageReading } from "./readings";

/** How the fitted line moves with one reading; logarithms are natural, so a change of ln q or ln Δp is a relative change. */
export interface ReadingSensitivity {
  /** a_i = ∂ln q_p/∂ln q_i. The a_i of all readings add up to 1. */
  readonly flowToFlow: number;
  /** X_i = ∂ln q_p/∂ln Δp_i; divide by Δp_i for a change in Pa. */
  readonly flowToPressure: number;
  /** b_i = ∂n/∂ln q_i. The b_i add up to 0. */
  readonly exponentToFlow: number;
  /** ∂n/∂ln Δp_i. */
  readonly exponentToPressure: number;
}

/** The same at the point through which the line turns; everything at another pressure follows from it. */
interface AtCentre {
  readonly flowToFlow: number;
  readonly flowToPressure: number;
  readonly exponentToFlow: number;
  readonly exponentToPressure: number;
}

/**
 * Sensitivities of a fitted line to each of its readings, in their order, as a function of ℓ, the ln Δp at which the line's flow is taken:
 * ln p at test conditions, 0 for C, ln p − L + 2M at reference conditions.
 * Ordinary: a_i = 1/N + (ℓ − x̄)·b_i, b_i = h_i/S, X_i = −n·a_i + (ℓ − x̄)·r_i/S, ∂n/∂x_i = −n·b_i + r_i/S, S = Σh².
 * @param fit The fit of these readings.
 * Source: derivatives of the least-squares line; checked against central differences in fifty digits.
 */
export function readingSensitivities(
  fit: LeakageFit,
  readings: readonly LeakageReading[],
): (logPressure: number) => ReadingSensitivity[] {
  const centre = ordinaryAtCentre(fit, readings);
  return (logPressure) => {
    const distance = logPressure - fit.meanLogPressure;
    return centre.map(({ flowToFlow, flowToPressure, exponentToFlow, exponentToPressure }) => ({
      flowToFlow: flowToFlow + distance * exponentToFlow,
      flowToPressure: flowToPressure + distance * exponentToPressure,
      exponentToFlow,
      exponentToPressure,
    }));
  };
}

function ordinaryAtCentre(fit: LeakageFit, readings: readonly LeakageReading[]): AtCentre[] {
  const { count, exponent, sumOfSquaresOfLogPressure } = fit;
  const { deviations: h } = centredLogs(readings.map(({ pressure }) => pressure));
  const { deviations: k } = centredLogs(readings.map(({ flow }) => flow));
  return h.map((deviation, index) => {
    const residual = k[index]! - exponent * deviation;
    return {
      flowToFlow: 1 / count,
      flowToPressure: -exponent / count,
      exponentToFlow: deviation / sumOfSquaresOfLogPressure,
      exponentToPressure: (residual - exponent * deviation) / sumOfSquaresOfLogPressure,
    };
  });
}
