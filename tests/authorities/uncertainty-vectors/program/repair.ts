import type { Exact } from "../../high-precision/decimal";
import { exact, sum } from "../../high-precision/decimal";
import { normalQuantile } from "../../high-precision/normal";
import { fractionalQuantile } from "../../high-precision/student-fractional";
import type { Freedom } from "./error-law";
import { rounded } from "./rounded";

interface Case {
  readonly flow_before: number;
  readonly flow_after: number;
  readonly u_before: number;
  readonly u_after: number;
  readonly common_relative: number;
  readonly dof_before: Freedom;
  readonly dof_after: Freedom;
}

/**
 * Change between two flows that share a relative error u_k: u'² = u² − (u_k·q)²; u²(D) = u'_b² + u'_a² + (u_k·D)²; significant where |ln(q_b/q_a)| exceeds t times the root of
 * (u'_b/q_b)² + (u'_a/q_a)². Degrees of freedom by JCGM 100:2008 G.4.1 for each of the two, not truncated, u⁴/ν being that of a whole uncertainty: its common part has infinite degrees.
 */
export function repair(given: Case) {
  const [before, after] = [exact(given.flow_before), exact(given.flow_after)];
  const common = exact(given.common_relative);
  const change = before.minus(after);
  const flows = [
    { flow: before, whole: exact(given.u_before), dof: given.dof_before },
    { flow: after, whole: exact(given.u_after), dof: given.dof_after },
  ];
  const own = flows.map(({ flow, whole }) => whole.pow(2).minus(common.times(flow).pow(2)));
  const combined = (perFlow: (flow: Exact) => Exact, further: Exact) => {
    const variance = sum([...own.map((one, i) => one.dividedBy(perFlow(flows[i]!.flow).pow(2))), further]);
    const quarters = flows.map(({ flow, whole, dof }) =>
      dof === "infinite" ? exact(0) : whole.dividedBy(perFlow(flow)).pow(4).dividedBy(dof),
    );
    const effective = sum(quarters).isZero() ? undefined : variance.pow(2).dividedBy(sum(quarters));
    return { u: variance.sqrt(), effective, t: coverageFactor(effective) };
  };
  const difference = combined(() => exact(1), common.times(change).pow(2));
  const ratio = combined((flow) => flow, exact(0));
  const logRatio = before.dividedBy(after).ln();
  return {
    ...given,
    change: rounded(change),
    u_change: rounded(difference.u),
    dof_change: difference.effective ? rounded(difference.effective) : "infinite",
    U_change: rounded(difference.t.times(difference.u)),
    log_ratio_over_u: rounded(logRatio.dividedBy(ratio.u)),
    dof_ratio: ratio.effective ? rounded(ratio.effective) : "infinite",
    t_ratio: rounded(ratio.t),
    significant: logRatio.abs().greaterThan(ratio.t.times(ratio.u)),
  };
}

/** The t that ±t encloses with 95 %, for 1 degree of freedom at least. */
function coverageFactor(freedom: Exact | undefined): Exact {
  if (freedom === undefined) return normalQuantile(exact("0.975"));
  return fractionalQuantile(freedom.lessThan(1) ? exact(1) : freedom, exact("0.95"));
}
