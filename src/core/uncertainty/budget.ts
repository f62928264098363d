import { ensure } from "../errors";
import { wholeDegreesOfFreedom } from "../judgement/verdict";
import { studentT } from "../statistics/distributions";
import { effectiveDegreesOfFreedom as effectiveDegrees } from "../statistics/effective-degrees";
import type { Output, PreparedTest, Source } from "./model";
import { noiseUncertainty, readingResponse, sensitivity } from "./response";

/** The sources of a run: those that act in every run alike, and its own. */
export interface BudgetSources {
  readonly shared: readonly Source[];
  readonly own: readonly Source[];
}

/**
 * The budget of one output of one run: one row per source, those of both directions first, then the random errors of the readings. Their row "scatter" counts; "stated" shows what they would be at exactly the noise
 * that is stated or assumed, and is contained in it.
 * @param shared The sources that act in every run alike.
 * @param own Those of this run alone.
 * @param mark Ends the symbols of the random rows ("scatter_d"), so that the two directions keep theirs apart.
 */
export function budgetRows(
  test: PreparedTest,
  { shared, own }: BudgetSources,
  output: Output,
  mark: string,
): BudgetRow[] {
  const response = readingResponse(test, output);
  const { scale, degreesOfFreedom } = test.random;
  const ofNoise = noiseUncertainty(test.points, response, test.noise);
  const rowOf = (source: Source, ofOneRun?: true): BudgetRow => ({
    symbol: source.symbol,
    part: source.effect === "baseline" || source.effect === "drift" ? "movement" : undefined,
    uncertainty: source.uncertainty,
    sensitivity: sensitivity(source, test, output, response),
    degreesOfFreedom: source.degreesOfFreedom,
    ofOneRun,
  });
  const random = { sensitivity: 1, degreesOfFreedom, ofOneRun: true } as const;
  return [
    ...shared.map((source) => rowOf(source)),
    ...own.map((source) => rowOf(source, true)),
    { ...random, symbol: `scatter_${mark}`, part: "scatter", uncertainty: scale * ofNoise },
    { ...random, symbol: `stated_${mark}`, uncertainty: ofNoise, degreesOfFreedom: Infinity, contained: true },
  ];
}

export type BudgetPart = "scatter" | "movement";

/** One row of a budget. */
export interface BudgetRow {
  readonly symbol: string;
  /** The random errors of the readings, or what the baseline moved by; undefined for every other source. */
  readonly part?: BudgetPart | undefined;
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

/**
 * Signed contribution c·u of a row; 0 where it is contained in another.
 * Example: contribution({ symbol: "volume", uncertainty: 0.02, sensitivity: -1, degreesOfFreedom: Infinity }) → -0.02
 */
export function contribution({ sensitivity, uncertainty, contained }: BudgetRow): number {
  return contained === true ? 0 : sensitivity * uncertainty;
}

/** Effective degrees of freedom of what rows contribute together; infinite where they contribute nothing. */
function freedomOf(standardUncertainty: number, rows: readonly BudgetRow[]): number {
  if (standardUncertainty === 0) return Infinity;
  const parts = rows.map((row) => ({ uncertainty: contribution(row), degreesOfFreedom: row.degreesOfFreedom }));
  return effectiveDegrees(standardUncertainty, parts);
}

/**
 * Law of propagation over independent rows: u_c² = Σ(c·u)², effective degrees of freedom by Welch and Satterthwaite, truncated to a whole number, U = t·u_c.
 * Errors: a contribution that is not finite.
 * Source: JCGM 100:2008, 5.1.2 and G.4.1 (which needs independent rows).
 * Example: combine([{ symbol: "volume", uncertainty: 0.03, sensitivity: -1, degreesOfFreedom: Infinity },
 *   { symbol: "scatter", uncertainty: 0.04, sensitivity: 1, degreesOfFreedom: 8 }], 0.95) → { standardUncertainty: 0.05, t: 2.09, expanded: 0.10, … }
 */
export function combine(rows: readonly BudgetRow[], confidence: number): Combination {
  const contributions = rows.map(contribution);
  const standardUncertainty = Math.hypot(...contributions);
  ensure(standardUncertainty < Infinity, "uncertainties", "tooLarge");
  const shares = contributions.map((part) => (standardUncertainty > 0 ? (part / standardUncertainty) ** 2 : 0));
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

/** The budget of one run, and its weight in what is made of several. */
export interface WeightedBudget {
  readonly rows: readonly BudgetRow[];
  /** For a mean of relative outputs the run's value over the sum of all, with the runs of one direction averaged first; for a difference of two 1 and −1. */
  readonly weight: number;
}

/**
 * Rows of a weighted sum of runs, such as the mean of two directions. A source that several runs have acts in all of them: its signed contributions are added before anything is
 * squared. What belongs to one run alone goes over with that run's weight; where several runs have such a row it is shown as one, its independent contributions added in squares.
 */
export function rowsOfMean(budgets: readonly WeightedBudget[]): readonly BudgetRow[] {
  if (budgets.length === 1 && budgets[0]!.weight === 1) return budgets[0]!.rows;
  const bySymbol = new Map<string, BudgetRow[]>();
  for (const { rows, weight } of budgets) {
    for (const row of rows) {
      const weighted = { ...row, sensitivity: row.sensitivity * weight };
      const alike = bySymbol.get(row.symbol);
      if (alike === undefined) bySymbol.set(row.symbol, [weighted]);
      else alike.push(weighted);
    }
  }
  return [...bySymbol.values()].map((rows) =>
    rows.length === 1 ? rows[0]! : rows[0]!.ofOneRun === true ? addInSquares(rows) : rows.reduce(addSigned),
  );
}

/** One source in two runs. Where the two uncertainties differ the larger is shown, with the sensitivity that gives the common contribution. */
function addSigned(one: BudgetRow, other: BudgetRow): BudgetRow {
  const uncertainty = Math.max(one.uncertainty, other.uncertainty);
  const part = (row: BudgetRow) =>
    row.uncertainty === uncertainty ? row.sensitivity : (row.sensitivity * row.uncertainty) / uncertainty;
  return {
    ...one,
    uncertainty,
    sensitivity: part(one) + part(other),
    degreesOfFreedom: Math.min(one.degreesOfFreedom, other.degreesOfFreedom),
  };
}

/** Rows of single runs as one: the root of their squares, with the degrees of freedom that they have together (JCGM 100:2008, G.4.1). */
function addInSquares(rows: readonly BudgetRow[]): BudgetRow {
  const uncertainty = Math.hypot(...rows.map(contribution));
  return { ...rows[0]!, uncertainty, sensitivity: 1, degreesOfFreedom: freedomOf(uncertainty, rows) };
}
