import type { Exact } from "../../high-precision/decimal";
import { at, exact, mean, sum } from "../../high-precision/decimal";
import { rounded } from "./rounded";

/** Resolution of a gauge that reads 0.1 Pa, as a standard uncertainty: 0.1/√12. */
const resolution = exact("0.1").dividedBy(exact(12).sqrt());

export interface SetMean {
  readonly mean: Exact;
  /** m_eff, the number of independent rows with the same uncertainty of the mean; absent for one row. */
  readonly effective?: Exact;
  readonly u: Exact;
  readonly dof: Exact | "infinite";
}

export interface BaselineSets {
  /** Correlation of neighbours; absent where no set shows it. */
  readonly r1?: Exact;
  readonly phi: Exact;
  readonly before: SetMean;
  readonly after?: SetMean;
  /** Standard deviation of the rows about their own means; absent below 3 degrees of freedom. */
  readonly deviation?: { readonly u: Exact; readonly dof: number };
}

const clip = (value: Exact, low: Exact | number, high: Exact | number): Exact =>
  value.lessThan(low) ? exact(low) : value.greaterThan(high) ? exact(high) : value;

function deviations(rows: readonly number[]): Exact[] {
  // A double such as 0.8 has more than fifty digits, so the mean of equal rows may differ from them in the last.
  if (rows.every((row) => row === rows[0])) return rows.map(() => exact(0));
  const centre = mean(rows.map(exact));
  return rows.map((row) => exact(row).minus(centre));
}

const squares = (values: readonly Exact[]): Exact => sum(values.map((value) => value.pow(2)));

/** r1 and φ of the sets of 6 rows or more, taken together. */
function correlation(sets: readonly (readonly number[])[]): { r1?: Exact; phi: Exact } {
  const long = sets.filter((rows) => rows.length >= 6).map(deviations);
  const below = sum(long.map(squares));
  if (below.isZero()) return { phi: exact(0) };
  const products = long.map((d) => sum(d.slice(1).map((next, i) => next.times(at(d, i)))));
  const r1 = sum(products).dividedBy(below);
  const rows = exact(long.flat().length).dividedBy(long.length);
  return { r1, phi: clip(r1.plus(r1.times(4).plus(1).dividedBy(rows)), 0, exact("0.98")) };
}

/** Standard uncertainty of the mean from six equal batches of the last rows: sd of their means over √6. */
function ofBatches(rows: readonly number[]): Exact {
  const size = Math.floor(rows.length / 6);
  const last = rows.slice(rows.length - 6 * size);
  const means = [0, 1, 2, 3, 4, 5].map((batch) => mean(last.slice(batch * size, (batch + 1) * size).map(exact)));
  const centre = mean(means);
  return squares(means.map((value) => value.minus(centre)))
    .dividedBy(5)
    .sqrt()
    .dividedBy(exact(6).sqrt());
}

function setMean(rows: readonly number[], phi: Exact): SetMean {
  const centre = mean(rows.map(exact));
  // Assumed for a single value, which may be an average that the gauge made.
  if (rows.length === 1) return { mean: centre, u: exact("0.2"), dof: exact(8) };
  const count = exact(rows.length);
  const independent = count.times(exact(1).minus(phi)).dividedBy(exact(1).plus(phi));
  const effective = clip(independent, 2, count);
  const single = squares(deviations(rows)).dividedBy(count.minus(count.dividedBy(effective)));
  const found = { mean: centre, effective };
  const byRows = single.dividedBy(effective).sqrt();
  const byBatches = rows.length >= 30 ? ofBatches(rows) : exact(0);
  if (byBatches.greaterThan(byRows)) return withResolution({ ...found, u: byBatches, dof: exact(5) });
  return withResolution({ ...found, u: byRows, dof: effective.minus(1) });
}

function withResolution(found: SetMean): SetMean {
  return found.u.lessThan(resolution) ? { ...found, u: resolution, dof: "infinite" } : found;
}

function deviationOfRows(sets: readonly (readonly number[])[]): { u: Exact; dof: number } | undefined {
  const several = sets.filter((rows) => rows.length >= 2);
  const dof = several.flat().length - several.length;
  if (dof < 3) return undefined;
  const u = sum(several.map((rows) => squares(deviations(rows))))
    .dividedBy(dof)
    .sqrt();
  return { u: u.lessThan(resolution) ? resolution : u, dof };
}

/** The means of the rows before and after a test with their uncertainties, and the noise of one reading that the rows show. */
export function baselineSets(before: readonly number[], after: readonly number[] | null): BaselineSets {
  const sets = after === null ? [before] : [before, after];
  const found = correlation(sets);
  const deviation = deviationOfRows(sets);
  return {
    ...found,
    before: setMean(before, found.phi),
    ...(after !== null && { after: setMean(after, found.phi) }),
    ...(deviation && { deviation }),
  };
}

interface Entry {
  readonly name: string;
  readonly before: readonly number[];
  readonly after: readonly number[] | null;
}

/** An entry of the group "baseline_sets", from its own rows. */
export function baselineEntry({ name, before, after }: Entry) {
  const found = baselineSets(before, after);
  const orNull = (value: Exact | undefined) => (value === undefined ? null : rounded(value));
  const written = ({ mean, effective, u, dof }: SetMean) => ({
    mean: rounded(mean),
    m_eff: orNull(effective),
    u: rounded(u),
    dof: dof === "infinite" ? dof : rounded(dof),
  });
  return {
    name,
    before,
    after,
    expected: {
      r1: orNull(found.r1),
      phi: rounded(found.phi),
      before: written(found.before),
      after: found.after ? written(found.after) : null,
      pressure_uncertainty: orNull(found.deviation?.u),
      pressure_uncertainty_dof: found.deviation?.dof ?? null,
    },
  };
}
