import { whereSound } from "../errors";
import { type LeakageFit, logFlowAt } from "./curve";
import { methodOf, type OtherTechnique } from "./fit";
import { type FittedLine, leastSquaresLine, residualsOf, statedDeviations, weightsOf } from "./least-squares";
import { type LeakageReading, logReadings, type LogReadings, pressuresVary } from "./readings";
import { readingSensitivities } from "./sensitivities";

/** One reading against the fitted line. */
interface Residual {
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
 * For the other techniques see techniqueInfluences.
 * @param fit The fit of these readings.
 * Source: R. D. Cook, "Detection of influential observation in linear regression", Technometrics 19 (1977) 15–18.
 */
export function influences(fit: LeakageFit, readings: readonly LeakageReading[], atPressure: number): Influence[] {
  if (fit.technique !== "ordinary") return techniqueInfluences(fit, fit.technique, readings, atPressure);
  const { x } = logReadings(readings, "ordinary");
  return readings.map((reading, index) => {
    const leverage = 1 / fit.count + x[index]! ** 2 / fit.sumOfSquaresOfLogPressure;
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

/** How much one reading pulls the line. Absent numbers: without this reading the line is not determined. */
interface Influence {
  readonly leverage: number;
  readonly cooksDistance?: number;
  readonly exponentWithout?: number;
  readonly flowWithout?: number;
}

/** Residuals smaller than this, relative, are rounding: the readings lie on the line and none of them pulls it. */
const rounding = 1e-13;

/** The same readings less one, about the same origin. */
function without(logs: LogReadings, index: number): LogReadings {
  const less = (values: readonly number[]) => values.filter((_, position) => position !== index);
  const { x, y, uncertaintyX, uncertaintyY, correlation, ...rest } = logs;
  return {
    ...rest,
    x: less(x),
    y: less(y),
    ...(uncertaintyX && { uncertaintyX: less(uncertaintyX) }),
    ...(uncertaintyY && { uncertaintyY: less(uncertaintyY) }),
    ...(correlation && { correlation: less(correlation) }),
  };
}

/** The technique's line of the other readings; undefined where they determine none, or it does not settle. */
function lineWithout(technique: OtherTechnique, logs: LogReadings, index: number): FittedLine | undefined {
  return whereSound(() => methodOf[technique].line(without(logs, index)));
}

/** y of a line at an x, both about the origin of the readings. */
function heightAt({ exponent, moments: { meanX, meanY } }: FittedLine, x: number): number {
  return meanY + exponent * (x - meanX);
}

/**
 * Influences for the techniques other than the ordinary one; for equal weights they are those of the ordinary one.
 * Leverage: how much the fitted ln q at a reading's pressure follows that reading's ln q, a_i at ℓ = x_i, weights held where readingSensitivities holds them.
 * Cook's distance: Σ_j w_j·(ŷ_j − ŷ_j without i)² / (2·Σw·r²/(N − 2)), by refitting, weights 1/(u²(y) + n²·u²(x)) where stated, else the technique's own.
 * Without a reading: the technique's line of the other readings.
 */
function techniqueInfluences(
  fit: LeakageFit,
  technique: OtherTechnique,
  readings: readonly LeakageReading[],
  atPressure: number,
): Influence[] {
  const logs = logReadings(readings, technique);
  const line = methodOf[technique].line(logs);
  const stated = statedDeviations(logs, line.exponent);
  const weights = stated === undefined ? line.moments.weights : weightsOf(stated).weights;
  const weighted = (values: readonly number[]) =>
    values.reduce((sum, value, index) => sum + weights[index]! * value ** 2, 0);
  const variance = weighted(residualsOf(line)) / (readings.length - 2);
  const along = readingSensitivities(fit, readings);
  return readings.map((_, index) => {
    const leverage = along(logs.meanX + logs.x[index]!)[index]!.flowToFlow;
    const others = lineWithout(technique, logs, index);
    if (others === undefined) return { leverage };
    const shifts = logs.x.map((x) => heightAt(line, x) - heightAt(others, x));
    return {
      leverage,
      cooksDistance: fit.residualDeviation > rounding ? weighted(shifts) / (2 * variance) : 0,
      exponentWithout: others.exponent,
      flowWithout: Math.exp(logs.meanY + heightAt(others, Math.log(atPressure) - logs.meanX)),
    };
  });
}
