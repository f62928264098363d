import type { Technique } from "./curve";
import { errorsInBothErrors, errorsInBothLine } from "./errors-in-both-line";
import { expectedExponentLine } from "./expected-exponent-line";
import type { LineErrors } from "./line-errors";
import type { LogReadings } from "./log-readings";
import type { FittedLine } from "./moments";
import { organicErrors, organicLine, weightedOrganicErrors, weightedOrganicLine } from "./organic-line";
import { weightedErrors, weightedLine } from "./weighted-line";

/** How a technique finds its line, for two readings or more, and the standard errors of it, for three or more. */
interface Method {
  readonly line: (logs: LogReadings) => FittedLine;
  readonly errors: (logs: LogReadings, line: FittedLine) => LineErrors;
}

/** Every technique but the ordinary one, which has a shorter way. */
export type OtherTechnique = Exclude<Technique, "ordinary">;

/** The one list of what the techniques do; fit, sensitivities and influences go by it. */
export const methodOf: Readonly<Record<OtherTechnique, Method>> = {
  weighted: { line: weightedLine, errors: weightedErrors },
  "organic correlation": { line: organicLine, errors: organicErrors },
  "weighted organic correlation": { line: weightedOrganicLine, errors: weightedOrganicErrors },
  "errors in both": { line: errorsInBothLine, errors: errorsInBothErrors },
  "weighted with expected exponent": { line: expectedExponentLine, errors: weightedErrors },
};
