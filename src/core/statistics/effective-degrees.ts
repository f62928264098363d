/** A standard uncertainty and its degrees of freedom, above 0; infinite where it is known for sure. */
export interface Known {
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
}

/** Effective degrees of freedom of a combined standard uncertainty by Welch and Satterthwaite: u⁴/Σ(u_i⁴/ν_i), infinite where all are. JCGM 100:2008 G.4.1. */
export function effectiveDegreesOfFreedom(combined: number, parts: readonly Known[]): number {
  const reciprocal = parts.reduce(
    (sum, { uncertainty, degreesOfFreedom }) => sum + (uncertainty / combined) ** 4 / degreesOfFreedom,
    0,
  );
  return 1 / reciprocal;
}
