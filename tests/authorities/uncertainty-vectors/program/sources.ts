import { airDensity } from "../../high-precision/air";
import type { Exact } from "../../high-precision/decimal";
import { exact } from "../../high-precision/decimal";
import { baselineSets, type BaselineSets, type SetMean } from "./baseline-sets";
import type { Freedom } from "./error-law";
import type { BudgetInputs, DirectionInputs, Stated } from "./inputs";

/** A row before its sensitivity is known. */
export interface Source {
  readonly source: string;
  readonly u: Exact;
  readonly dof: Exact | Freedom;
}

/** Standard acceleration of free fall, m/s² (3rd CGPM 1901). */
const freeFall = exact("9.80665");

const rectangular = (source: string, halfWidth: Exact): Source => ({
  source,
  u: halfWidth.dividedBy(exact(3).sqrt()),
  dof: "infinite",
});

/** Rows that act in both directions: those stated, and the stack effect as 0.1·g·H·|ρe − ρi|. */
export function sharedSources(inputs: BudgetInputs): Source[] {
  const [indoor, outdoor] = densities(inputs);
  const stack = freeFall.times(exact(inputs.height)).times(outdoor.minus(indoor).abs());
  return [
    ...Object.entries(inputs.shared_u).map(([source, { u, dof }]) => ({ source, u: exact(u), dof })),
    rectangular("stack", stack.dividedBy(10)),
  ];
}

/** The wind as 0.1·½·ρe·U², ΔCp = 1. */
export function windSource(inputs: BudgetInputs): Source {
  const [, outdoor] = densities(inputs);
  return rectangular("wind", outdoor.times(exact(inputs.wind_speed).pow(2)).dividedBy(20));
}

/** Change of the exponent per unit of ln Δp, beyond the readings. */
export const modelSource = rectangular("model", exact("0.095"));

function densities(inputs: BudgetInputs): [Exact, Exact] {
  const barometer = exact(inputs.barometer);
  return [
    airDensity(exact(inputs.indoor_temperature), barometer, exact(inputs.indoor_humidity)),
    airDensity(exact(inputs.outdoor_temperature), barometer, exact(inputs.outdoor_humidity)),
  ];
}

/**
 * Means of the sets, the course of the zero between them (u = d/√12) and, where it does not follow the time, its drift (u = d): d is how far the means moved beyond their own
 * uncertainties.
 */
export function baselineSources(given: DirectionInputs): { sets: BaselineSets; means: Source[]; course: Source[] } {
  const sets = baselineSets(given.baseline_before, given.baseline_after);
  const [ofBefore, ofAfter] = given.baseline_u ?? [];
  const before = sourceOfMean("B1", sets.before, ofBefore);
  if (sets.after === undefined) return { sets, means: [before], course: [] };
  const after = sourceOfMean("B2", sets.after, ofAfter);
  const change = sets.after.mean.minus(sets.before.mean).pow(2);
  const beyond = change.minus(before.u.pow(2)).minus(after.u.pow(2));
  const d = beyond.isNegative() ? exact(0) : beyond.sqrt();
  const constant: Source = { source: "bconst", u: d.dividedBy(exact(12).sqrt()), dof: "infinite" };
  const drift: Source = { source: "drift", u: d, dof: "infinite" };
  return { sets, means: [before, after], course: given.times === null ? [constant, drift] : [constant] };
}

function sourceOfMean(source: string, { u, dof }: SetMean, stated: Stated | undefined): Source {
  return stated === undefined ? { source, u, dof } : { source, u: exact(stated.u), dof: stated.dof };
}
