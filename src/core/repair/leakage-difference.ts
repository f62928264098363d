import { ensure, requirePositive } from "../errors";
import { ownPart, requireCommonShare } from "../judgement/en-score";
import { equal } from "../numbers";
import { effectiveDegreesOfFreedom, type Known } from "../statistics/effective-degrees";
import { studentT } from "../statistics/distributions";

/** Standard uncertainties of two flows, common part included, with their degrees of freedom; the common part is relative, and known for sure. */
export interface DifferenceUncertainties {
  readonly before: number;
  readonly after: number;
  readonly common: number;
  /** Above 0; infinite where not given. */
  readonly degreesBefore?: number | undefined;
  readonly degreesAfter?: number | undefined;
}

export interface LeakageDifference {
  /** Before less after: above 0 where the leakage fell. */
  readonly change: number;
  readonly changePercent: number;
  /** Absent where no uncertainties are known. */
  readonly uncertainty?: ChangeUncertainty;
}

interface ChangeUncertainty {
  readonly standard: number;
  /** Limits at 95 %. */
  readonly lower: number;
  readonly upper: number;
  readonly isSignificant: boolean;
}

/**
 * U = t·u at 95 %, t for the effective degrees of freedom of u as they are: truncated, unchanged houses of five readings would be called significant in 3 % instead of 5 %.
 * A whole uncertainty and its own part have the same u⁴/ν, since the common part adds nothing to it.
 */
function expanded(combined: number, whole: readonly Known[]): number {
  if (combined === 0) return 0;
  return studentT(0.95, Math.max(1, effectiveDegreesOfFreedom(combined, whole))) * combined;
}

/**
 * Change of leakage between two tests: D = q_b − q_a, u²(D) = u_b'² + u_a'² + (u_k·D)² with u'² = u² − (u_k·q)². Significant where
 * |ln(q_b/q_a)| > t·√((u_b'/q_b)² + (u_a'/q_a)²): the common error, such as the flow device's calibration, cancels exactly in the ratio only.
 * @param before Flow before, any unit of flow; `after` in the same.
 * Errors: flows not above 0; uncertainties below 0, or smaller than the common part in them; degrees of freedom not above 0.
 * Source: JCGM 100:2008 5.1.2, 5.2.2 (correlated input quantities) and G.4.1 (effective degrees of freedom).
 * Example: leakageDifference(500, 400, { before: 15, after: 12, common: 0.02 })
 *   → { change: 100.0, changePercent: 20.0, uncertainty: { standard: 14.46, lower: 71.67, upper: 128.33, isSignificant: true } }
 */
export function leakageDifference(
  before: number,
  after: number,
  uncertainties?: DifferenceUncertainties,
): LeakageDifference {
  requirePositive(before, "flow before");
  requirePositive(after, "flow after");
  const change = before - after;
  const plain = { change, changePercent: (100 * change) / before };
  if (uncertainties === undefined) return plain;
  const { common, degreesBefore = Infinity, degreesAfter = Infinity } = uncertainties;
  requireCommonShare(common);
  ensure(degreesBefore > 0, "degrees before", "aboveZero", { got: degreesBefore });
  ensure(degreesAfter > 0, "degrees after", "aboveZero", { got: degreesAfter });
  const ownBefore = ownPart(uncertainties.before, common * before, "uncertainty before");
  const ownAfter = ownPart(uncertainties.after, common * after, "uncertainty after");
  const whole = (perBefore: number, perAfter: number): readonly Known[] => [
    { uncertainty: uncertainties.before / perBefore, degreesOfFreedom: degreesBefore },
    { uncertainty: uncertainties.after / perAfter, degreesOfFreedom: degreesAfter },
  ];
  const standard = Math.hypot(ownBefore, ownAfter, common * change);
  const halfWidth = expanded(standard, whole(1, 1));
  const threshold = expanded(Math.hypot(ownBefore / before, ownAfter / after), whole(before, after));
  return {
    ...plain,
    uncertainty: {
      standard,
      lower: change - halfWidth,
      upper: change + halfWidth,
      isSignificant: !equal(before, after) && Math.abs(Math.log(before / after)) > threshold,
    },
  };
}
