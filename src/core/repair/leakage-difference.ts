import { ensure, requirePositive } from "../errors";
import { atMost, equal } from "../judgement/comparison";
import { normal95 } from "../statistics/coverage";

/** Standard uncertainties of two flows; the common one is relative and part of both. */
export interface DifferenceUncertainties {
  readonly before: number;
  readonly after: number;
  readonly common: number;
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

/** What is left of an uncertainty without the part that both flows share. */
function ownPart(uncertainty: number, commonPart: number, argument: string): number {
  ensure(uncertainty >= 0 && uncertainty < Infinity, argument, () => `must be 0 or more (got ${uncertainty})`);
  ensure(
    atMost(commonPart, uncertainty),
    argument,
    () =>
      `${uncertainty} is less than the common part in it, ${commonPart}: give the whole uncertainty here, the common one as a fraction`,
  );
  return Math.sqrt(Math.max(0, (uncertainty - commonPart) * (uncertainty + commonPart)));
}

/**
 * Change of leakage between two tests: D = q_b − q_a, u²(D) = u_b'² + u_a'² + (u_k·D)² with u'² = u² − (u_k·q)². Significant where
 * |ln(q_b/q_a)| > 1.96·√((u_b'/q_b)² + (u_a'/q_a)²): the common error, such as the flow device's calibration, cancels exactly in the ratio only.
 * @param before Flow before, any unit of flow; `after` in the same.
 * Errors: flows not above 0; uncertainties below 0, or smaller than the common part in them.
 * Source: JCGM 100:2008 5.1.2 and 5.2.2 (correlated input quantities).
 */
export function leakageDifference(
  before: number,
  after: number,
  uncertainties?: DifferenceUncertainties,
): LeakageDifference {
  requirePositive(before, "flow_before");
  requirePositive(after, "flow_after");
  const change = before - after;
  const plain = { change, changePercent: (100 * change) / before };
  if (uncertainties === undefined) return plain;
  const { common } = uncertainties;
  ensure(common >= 0 && common < 1, "common_uncertainty", () => `a fraction, 0.02 for 2 % (got ${common})`);
  const ownBefore = ownPart(uncertainties.before, common * before, "uncertainty_before");
  const ownAfter = ownPart(uncertainties.after, common * after, "uncertainty_after");
  const standard = Math.hypot(ownBefore, ownAfter, common * change);
  const threshold = normal95 * Math.hypot(ownBefore / before, ownAfter / after);
  return {
    ...plain,
    uncertainty: {
      standard,
      lower: change - normal95 * standard,
      upper: change + normal95 * standard,
      isSignificant: !equal(before, after) && Math.abs(Math.log(before / after)) > threshold,
    },
  };
}
