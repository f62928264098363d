import type { LeakageFit } from "./curve";
import { expectedExponentLine, expectedExponentPulls } from "./expected-exponent";
import { methodOf, type OtherTechnique } from "./fit";
import { type LeakageReading, logReadings, type LogReadings } from "./readings";
import { type FittedLine, residualsOf, unweightedLine } from "./least-squares";
import { organicPulls } from "./organic-correlation";

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

/** The same, for the level ln q at the line's means rather than for ln q_p: all other pressures follow from it and from those of n. */
interface Pulls {
  readonly levelToY: number;
  readonly levelToX: number;
  readonly exponentToY: number;
  readonly exponentToX: number;
}

/**
 * Sensitivities of a fitted line to each of its readings, in their order, as a function of ℓ, the ln Δp at which the line's flow is taken:
 * ln p at test conditions, 0 for C, ln p − L + 2M at reference conditions.
 * Least squares, weights held: a_i = w_i/W + (ℓ − x̄)·b_i, b_i = w_i·h_i/S, X_i = −n·a_i + (ℓ − x̄)·w_i·r_i/S, ∂n/∂x_i = −n·b_i + w_i·r_i/S, S = Σw·h².
 * Organic correlation, weights held: ∂n/∂y_i = n·w_i·k_i/S_yy, ∂n/∂x_i = −n·w_i·h_i/S_xx. Where the weights follow the line (errors in both; weighted with
 * uncertainties of the pressures): central differences of the whole fit, the relative uncertainties of the readings held. Expected exponent: the derivatives of
 * the whole fit, in closed form.
 * @param fit The fit of these readings.
 * Source: derivatives of the lines; checked against central differences in fifty digits.
 */
export function readingSensitivities(
  fit: LeakageFit,
  readings: readonly LeakageReading[],
): (logPressure: number) => ReadingSensitivity[] {
  const logs = logReadings(readings, fit.technique);
  const { meanX, pulls } = pullsOf(fit.technique, logs);
  return (logPressure) => {
    const distance = logPressure - logs.meanX - meanX;
    return pulls.map(({ levelToY, levelToX, exponentToY, exponentToX }) => ({
      flowToFlow: levelToY + distance * exponentToY,
      flowToPressure: levelToX + distance * exponentToX,
      exponentToFlow: exponentToY,
      exponentToPressure: exponentToX,
    }));
  };
}

/** How ln q_p and n move with the expected exponent, whose standard uncertainty is 0.057. */
export interface PriorSensitivity {
  readonly flowToPrior: number;
  readonly exponentToPrior: number;
}

/**
 * Sensitivities of a fitted line to the expected exponent, weights held: ∂n/∂n_0 is the prior's share, ∂ln q_p/∂n_0 the share times ℓ − x̄; both 0 where the
 * technique expects no exponent. The prior's part of a variance has the degrees of freedom of the fit, since the scatter decides on the share.
 * @param logPressure ℓ, as for readingSensitivities.
 */
export function priorSensitivity({ prior, meanLogPressure }: LeakageFit, logPressure: number): PriorSensitivity {
  const share = prior?.share ?? 0;
  return { flowToPrior: share * (logPressure - meanLogPressure), exponentToPrior: share };
}

function pullsOf(technique: LeakageFit["technique"], logs: LogReadings): { meanX: number; pulls: Pulls[] } {
  if (technique === "weighted with expected exponent") {
    const line = expectedExponentLine(logs);
    return { meanX: line.moments.meanX, pulls: expectedExponentPulls(logs, line) };
  }
  const line = technique === "ordinary" ? unweightedLine(logs) : methodOf[technique].line(logs);
  const { meanX } = line.moments;
  const each = (pull: (index: number) => Pulls) => ({ meanX, pulls: logs.x.map((_, index) => pull(index)) });
  if (technique === "organic correlation" || technique === "weighted organic correlation") {
    return each((index) => organicPulls(line, index));
  }
  const weightsFollow = technique === "errors in both" || (technique === "weighted" && logs.uncertaintyX !== undefined);
  if (weightsFollow) return each((index) => differences(technique, logs, line, index));
  const residuals = residualsOf(line);
  return each((index) => leastSquaresPulls(line, residuals, index));
}

function leastSquaresPulls(
  { exponent, moments: sums }: FittedLine,
  residuals: readonly number[],
  index: number,
): Pulls {
  const weight = sums.weights[index]!;
  const exponentToY = (weight * sums.h[index]!) / sums.sumXX;
  return {
    levelToY: weight / sums.total,
    levelToX: (-exponent * weight) / sums.total,
    exponentToY,
    exponentToX: (weight * residuals[index]!) / sums.sumXX - exponent * exponentToY,
  };
}

/** A step of a thousandth of the readings' own spread; with the step twice as large it is right to its fourth power. */
const relativeStep = 1e-3;

/** Central differences of the whole fit, extrapolated once (L. F. Richardson) so that the step's error falls with its fourth power. */
function differences(technique: OtherTechnique, logs: LogReadings, line: FittedLine, index: number): Pulls {
  const spread = Math.sqrt(line.moments.sumXX / line.moments.total);
  const stepX = relativeStep * spread;
  const [alongX, alongY] = [derivative("x", stepX), derivative("y", Math.abs(line.exponent) * stepX || stepX)];
  return {
    levelToY: alongY.level,
    levelToX: alongX.level,
    exponentToY: alongY.exponent,
    exponentToX: alongX.exponent,
  };

  function derivative(axis: "x" | "y", step: number): { level: number; exponent: number } {
    const near = difference(axis, step);
    const far = difference(axis, 2 * step);
    return { level: (4 * near.level - far.level) / 3, exponent: (4 * near.exponent - far.exponent) / 3 };
  }

  function difference(axis: "x" | "y", step: number): { level: number; exponent: number } {
    const [up, down] = [moved(axis, step), moved(axis, -step)];
    return { level: (up.level - down.level) / (2 * step), exponent: (up.exponent - down.exponent) / (2 * step) };
  }

  /** Slope, and ln q at the unmoved line's mean, with one coordinate of the reading moved. */
  function moved(axis: "x" | "y", step: number): { level: number; exponent: number } {
    const values = logs[axis].map((value, position) => (position === index ? value + step : value));
    const { exponent, moments: sums } = methodOf[technique].line({ ...logs, [axis]: values });
    return { level: sums.meanY + exponent * (line.moments.meanX - sums.meanX), exponent };
  }
}
