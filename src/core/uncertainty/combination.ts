import { ensure } from "../errors";
import { wholeDegreesOfFreedom } from "../judgement/conformance";
import type { Limits } from "../leakage/curve";
import { effectiveDegreesOfFreedom as effectiveDegrees } from "../statistics/effective-degrees";
import { studentT } from "../statistics/student-t";

/** One row of a budget. */
export interface BudgetRow {
  readonly symbol: string;
  /** u, standard. */
  readonly uncertainty: number;
  /** c, signed: change of the output per unit of the source. */
  readonly sensitivity: number;
  readonly degreesOfFreedom: number;
  /** True for a row of one run alone: another run has one of the same symbol, but its error is independent. */
  readonly ofOneRun?: true | undefined;
  /** True where another row holds the same effect already; it does not count. */
  readonly contained?: true | undefined;
}

export interface Combination {
  /** u_c, relative, or absolute for n. */
  readonly standardUncertainty: number;
  /** Each row's share of u_c². */
  readonly shares: readonly number[];
  readonly effectiveDegreesOfFreedom: number;
  /** Those that t is taken with: whole, 1 or more. */
  readonly degreesOfFreedom: number;
  readonly t: number;
  /** U = t·u_c, relative, or absolute for n. */
  readonly expanded: number;
}

/** Signed contribution c·u of a row; 0 where it is contained in another. */
export function contribution({ sensitivity, uncertainty, contained }: BudgetRow): number {
  return contained === true ? 0 : sensitivity * uncertainty;
}

/** Effective degrees of freedom of what rows contribute together; infinite where they contribute nothing. */
export function freedomOf(standardUncertainty: number, rows: readonly BudgetRow[]): number {
  if (standardUncertainty === 0) return Infinity;
  const parts = rows.map((row) => ({ uncertainty: contribution(row), degreesOfFreedom: row.degreesOfFreedom }));
  return effectiveDegrees(standardUncertainty, parts);
}

/**
 * Law of propagation over independent rows: u_c² = Σ(c·u)², effective degrees of freedom by Welch and Satterthwaite, truncated to a whole number, U = t·u_c.
 * Errors: a contribution that is not finite.
 * Source: JCGM 100:2008, 5.1.2 and G.4.1 (which needs independent rows).
 */
export function combine(rows: readonly BudgetRow[], confidence: number): Combination {
  const standardUncertainty = Math.hypot(...rows.map(contribution));
  ensure(standardUncertainty < Infinity, "settings", "the uncertainties are too large to calculate with");
  const shares = rows.map((row) => (standardUncertainty > 0 ? (contribution(row) / standardUncertainty) ** 2 : 0));
  const effectiveDegreesOfFreedom = freedomOf(standardUncertainty, rows);
  const degreesOfFreedom = wholeDegreesOfFreedom(effectiveDegreesOfFreedom);
  const t = studentT(confidence, degreesOfFreedom);
  return {
    standardUncertainty,
    shares,
    effectiveDegreesOfFreedom,
    degreesOfFreedom,
    t,
    expanded: t * standardUncertainty,
  };
}

/** Limits of a value: value·exp(±U), or value ± U where the uncertainty is absolute (n). */
export function limitsOf(value: number, { expanded }: Combination, absolute: boolean): Limits {
  return absolute
    ? { value, lower: value - expanded, upper: value + expanded }
    : { value, lower: value * Math.exp(-expanded), upper: value * Math.exp(expanded) };
}
