import type { LogReadings } from "./log-readings";
import { ofReadings, residualsOf, type FittedLine } from "./moments";
import { statedDeviations } from "./stated-deviations";

/** What the scatter about the line of the readings says of the stated uncertainties. */
export interface AgainstScatter {
  readonly chiSquare?: number;
  /** √(χ²/(N − 2)) where that exceeds 1, else 1. */
  readonly enlargement: number;
  /** N − 2 where the scatter decides; infinite where the stated uncertainties do. */
  readonly degreesOfFreedom: number;
}

/**
 * χ² = Σr²/(u²(y) + n²·u²(x)) against the stated uncertainties, and what follows from it. Nothing does where they are not stated, or only assumed: there the
 * standard errors come from the scatter directly.
 */
export function againstScatter(logs: LogReadings, line: FittedLine): AgainstScatter {
  const free = logs.x.length - 2;
  const deviations = logs.assumed === true ? undefined : statedDeviations(logs, line.exponent);
  if (deviations === undefined) return { enlargement: 1, degreesOfFreedom: free };
  const residuals = residualsOf(ofReadings(line));
  const chiSquare = deviations.reduce((sum, deviation, index) => sum + (residuals[index]! / deviation) ** 2, 0);
  return free > 0 && chiSquare > free
    ? { chiSquare, enlargement: Math.sqrt(chiSquare / free), degreesOfFreedom: free }
    : { chiSquare, enlargement: 1, degreesOfFreedom: Infinity };
}
