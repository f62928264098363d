import type { Exact } from "../../high-precision/decimal";
import { exact } from "../../high-precision/decimal";
import { normalProbability, normalQuantile } from "../../high-precision/normal";
import { studentProbability, studentQuantile } from "../../high-precision/student";

/** Degrees of freedom as the vectors write them. */
export type Freedom = number | "infinite";

/** Probability that a Student or normal variable is t or less; JCGM 100:2008 G.4.1 truncates the degrees of freedom. */
export function probabilityBelow(t: Exact, dof: Freedom): Exact {
  if (dof === "infinite") return normalProbability(t);
  const central = studentProbability(Math.floor(dof), t.abs());
  const below = exact(1).plus(central).dividedBy(2);
  return t.isNegative() ? exact(1).minus(below) : below;
}

/** The t that ±t encloses with 95 %. */
export function coverageFactor(dof: Freedom): Exact {
  return dof === "infinite" ? normalQuantile(exact("0.975")) : studentQuantile(Math.floor(dof), exact("0.95"));
}
