import { incompleteBeta, logBeta } from "./gamma";

/** The density of Student's t. */
export function studentDensity(t: number, freedom: number): number {
  return (
    Math.exp(-((freedom + 1) / 2) * Math.log1p((t * t) / freedom) - logBeta(freedom / 2, 0.5)) / Math.sqrt(freedom)
  );
}

/** The probability beyond t on one side, for t ≥ 0 (DLMF 8.17.5 with x = ν / (ν + t²)). */
export function studentTail(t: number, freedom: number): number {
  const square = t * t;
  return 0.5 * incompleteBeta(freedom / 2, 0.5, freedom / (freedom + square), square / (freedom + square));
}

/**
 * The t beyond which a probability lies on one side, for 0 < tail ≤ 0.5.
 * Newton steps on the logarithms of tail and t, bounded in length, from the quantile for one degree of freedom.
 */
export function studentQuantile(tail: number, freedom: number): number {
  if (tail >= 0.5) return 0;
  let t = 1 / Math.tan(Math.PI * tail);
  for (let turn = 0; turn < 200; turn += 1) {
    const reached = studentTail(t, freedom);
    if (reached === 0) {
      t /= 4;
      continue;
    }
    const step = ((Math.log(reached) - Math.log(tail)) * reached) / (studentDensity(t, freedom) * t);
    t *= Math.exp(Math.max(-2, Math.min(2, step)));
    if (Math.abs(step) < 1e-15) break;
  }
  return t;
}
