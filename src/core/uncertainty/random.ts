import { atMost } from "../judgement/comparison";
import { standardErrorOfLogFlow } from "../leakage/curve";
import { logFlowAt } from "../leakage/line";
import type { PreparedTest } from "./model";
import type { Output } from "./output";
import { logPressureOf, type ReadingResponse } from "./response";

/** What the tester states of the random error of one reading, standard: Pa of the pressure, a fraction of the fan pressure. */
export interface StatedNoise {
  readonly pressure: number;
  readonly fan: number;
}

/** The random part of one output of one direction, told in two ways; the larger counts, the other is contained in it. */
export interface RandomPart {
  readonly scatter: number;
  readonly stated: number;
  readonly mode: "scatter" | "stated";
}

/**
 * Random part once: from the scatter about the line (ordinary: u² = s²·Σa_i²), which holds every effect that differs from reading to reading, or as stated,
 * u² = Σ[(X_i·u(P)/Δp_i)² + (a_i·m_i·u(f)/f)²], whichever is larger for this output; alike, the scatter, which is then of a technique that goes by what is stated. Both would count the same thing twice.
 */
export function randomPart(
  test: PreparedTest,
  output: Output,
  response: ReadingResponse,
  noise: StatedNoise,
): RandomPart {
  const { fit } = test;
  const scatter =
    output.of === "exponent" ? fit.standardErrorOfExponent : standardErrorOfLogFlow(fit, logPressureOf(test, output));
  const squares = test.points.reduce((sum, { pressure }, index) => {
    const ofPressure = (response.toPressure[index]! * noise.pressure) / pressure;
    const ofFan = response.toFlow[index]! * test.readings[index]!.fan.exponent * noise.fan;
    return sum + ofPressure ** 2 + ofFan ** 2;
  }, 0);
  const stated = Math.sqrt(squares);
  return { scatter, stated, mode: atMost(stated, scatter) ? "scatter" : "stated" };
}

/** χ² of the residuals against what is stated: Σr²/(u²(y) + n²·u²(x)). Something must be stated. */
export function chiSquareOf({ fit, points, readings }: PreparedTest, noise: StatedNoise): number {
  return points.reduce((sum, { pressure, flow }, index) => {
    const residual = Math.log(flow) - logFlowAt(fit, Math.log(pressure));
    return (
      sum +
      (residual / Math.hypot(readings[index]!.fan.exponent * noise.fan, (fit.exponent * noise.pressure) / pressure)) **
        2
    );
  }, 0);
}
