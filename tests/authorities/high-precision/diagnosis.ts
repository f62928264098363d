import type { Exact } from "./decimal";
import { at, exact } from "./decimal";
import { fitLine, flowAt } from "./leakage";

export interface ReadingDiagnosis {
  readonly fitted: Exact;
  readonly residualPercent: Exact;
  readonly leverage: Exact;
  readonly cook: Exact;
  readonly nWithout: Exact | null;
  readonly q50Without: Exact | null;
}

/**
 * What each reading does to the fit: fitted flow, residual in % of it, leverage, Cook's distance D = r²/(2·s²)·h/(1 − h)²
 * (Cook 1977, Technometrics 19:15) and, by refitting, n and q50 without the reading.
 */
export function diagnoseReadings(
  pressures: readonly Exact[],
  flows: readonly Exact[],
  confidence: Exact,
): ReadingDiagnosis[] {
  const [xs, ys] = [pressures.map((pressure) => pressure.ln()), flows.map((flow) => flow.ln())];
  const fit = fitLine(xs, ys, confidence);
  return xs.map((x, index) => {
    const flow = at(flows, index);
    const logarithm = fit.lnC.plus(fit.n.times(x));
    const residual = at(ys, index).minus(logarithm);
    const leverage = exact(1).dividedBy(fit.count).plus(x.minus(fit.meanX).pow(2).dividedBy(fit.spreadX));
    const scale = fit.residualDeviation.pow(2).times(2);
    const others = (values: readonly Exact[]) => values.filter((_, other) => other !== index);
    const without = fit.count > 3 ? fitLine(others(xs), others(ys), confidence) : null;
    const fitted = logarithm.exp();
    return {
      fitted,
      residualPercent: flow.dividedBy(fitted).minus(1).times(100),
      leverage,
      cook: residual.pow(2).dividedBy(scale).times(leverage).dividedBy(exact(1).minus(leverage).pow(2)),
      nWithout: without ? without.n : null,
      q50Without: without ? flowAt(without, exact(50)).value : null,
    };
  });
}
