import { MethodError } from "../errors";
import type { LeakageFit } from "./curve";
import { rounding, type Influence } from "./influence";
import { methodOf, type OtherTechnique } from "./lines";
import { logReadings, type LogReadings } from "./log-readings";
import { residualsOf, type FittedLine } from "./moments";
import type { LeakageReading } from "./readings";
import { readingSensitivities } from "./sensitivities";
import { statedDeviations, weightsOf } from "./stated-deviations";

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
  try {
    return methodOf[technique].line(without(logs, index));
  } catch (error) {
    if (error instanceof MethodError) return undefined;
    throw error;
  }
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
export function techniqueInfluences(
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
