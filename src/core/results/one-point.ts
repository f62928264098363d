import { ensure, requirePositive } from "../errors";
import { usualPressure } from "../judgement/target";
import { assumedExponent, assumedExponentDeviation } from "../leakage/assumed-exponent";
import { requireExponent } from "../leakage/exponent";
import { normal95 } from "../statistics/coverage";

/** What is assumed or known beside one reading. */
export interface OnePointTerms {
  readonly exponent?: number | undefined;
  /** Standard uncertainty of the exponent; that of an assumed one where it is not given. */
  readonly exponentUncertainty?: number | undefined;
  /** Pressure at which the flow is wanted, Pa. */
  readonly at?: number | undefined;
  /** Zero-flow pressure, Pa, signed as the reading. */
  readonly baseline?: number | undefined;
}

export interface OnePointFlow {
  readonly flow: number;
  readonly standardUncertainty: number;
  /** Limits at 95 %. */
  readonly lower: number;
  readonly upper: number;
  /** Signed, Pa. */
  readonly inducedPressure: number;
  readonly exponent: number;
}

/**
 * Flow at a reference pressure from one reading: q·(p/Δp)^n, Δp the reading less the baseline. The uncertainty is that of the exponent alone,
 * |ln(p/Δp)|·u(n) relative: it vanishes at the reading itself, and nothing of the instruments is in it.
 * Errors: flow or pressures that cannot be, a reading within the baseline, an exponent outside 0.4 to 1.1, a negative uncertainty.
 * Source: ANSI/RESNET/ICC 380, one-point test; ASTM E1827, single-point method (both from memory); JCGM 100:2008 5.1.2.
 */
export function onePointFlow(flow: number, pressure: number, terms: OnePointTerms = {}): OnePointFlow {
  const { exponent = assumedExponent, exponentUncertainty = assumedExponentDeviation } = terms;
  const { at = usualPressure, baseline = 0 } = terms;
  requirePositive(flow, "flow");
  requirePositive(at, "at");
  requireExponent(exponent, "exponent");
  ensure(exponentUncertainty >= 0 && exponentUncertainty <= 1, "exponent", "its standard uncertainty is from 0 to 1");
  ensure(pressure !== 0, "pressure", "must not be 0");
  const induced = pressure - baseline;
  ensure(induced * pressure > 0, "pressure", () => `${pressure} Pa does not exceed the baseline of ${baseline} Pa`);
  const logRatio = Math.log(at / Math.abs(induced));
  const result = flow * Math.exp(exponent * logRatio);
  const relative = Math.abs(logRatio) * exponentUncertainty;
  return {
    flow: result,
    standardUncertainty: result * relative,
    lower: result * Math.exp(-normal95 * relative),
    upper: result * Math.exp(normal95 * relative),
    inducedPressure: induced,
    exponent,
  };
}
