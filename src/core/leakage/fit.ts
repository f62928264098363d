import type { LeakageFit, Technique } from "./curve";
import { ordinaryFit } from "./ordinary-fit";
import type { LeakageReading } from "./readings";
import { techniqueFit } from "./technique-fit";

/** Fits the leakage curve by the technique named. Errors: those of ordinaryFit and techniqueFit. */
export function fitLeakage(readings: readonly LeakageReading[], technique: Technique): LeakageFit {
  return technique === "ordinary" ? ordinaryFit(readings) : techniqueFit(readings, technique);
}
