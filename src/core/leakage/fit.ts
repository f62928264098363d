import type { LeakageFit, Technique } from "./curve";
import { ordinaryFit } from "./ordinary-fit";
import type { LeakageReading } from "./readings";

/** Fits the leakage curve by the technique named. Errors: those of centredLogs. */
export function fitLeakage(readings: readonly LeakageReading[], technique: Technique): LeakageFit {
  switch (technique) {
    case "ordinary":
      return ordinaryFit(readings);
  }
}
