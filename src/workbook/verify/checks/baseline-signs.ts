import type { SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { DirectionPair } from "../../book/tests/direction-pairs";
import type { Check, Review } from "../review";
import { type EnteredRun, readResult, readValues } from "../../book/tests/entered-runs";
import { formatFigure } from "../../formatting";

/** Below this, in Pa, a mean may change its sign with the wind. Common practice, no source. */
const clear = 1;

/** A mean of which the sign is certain: that many standard errors from 0, for each of the two means once in a thousand by chance. */
const certain = 3.3;

/**
 * How many times worse the line of an honest direction may fit than with its baseline turned, by its number of readings: exceeded by fewer than
 * 0.1 % of simulated directions (20 000 each; baselines of 0.5 to 5 Pa, noise of 0.1 to 1 Pa and 0.2 to 1 %), whatever the baseline.
 */
const chance: readonly (readonly [count: number, ratio: number])[] = [
  [15, 2],
  [12, 2.2],
  [10, 2.6],
  [8, 3.3],
  [7, 4.1],
  [6, 6.2],
  [5, 9],
  [4, 30],
];

const worstByChance = (count: number): number => chance.find(([least]) => count >= least)?.[1] ?? Infinity;

/** Baselines whose sign is inconsistent with the rest of the test. */
export const checkBaselineSigns: Check = (review) => [
  ...review.runs.flatMap((run) => [...compareSets(review, run), ...findBetterTurned(review, run)]),
  ...review.tests.pairs.flatMap((pair) => compareDirections(review, pair)),
];

const why =
  "A baseline with the wrong sign shifts every induced pressure by twice the baseline, and the fit hardly shows it.";
const todo = "Compare the baseline readings with the gauge log: indoors minus outdoors, flow device covered.";

/** Turning a smaller baseline changes nothing that could be seen, Pa. */
const leastTurned = 0.5;

function compareSets({ view }: Review, { before, after, direction }: EnteredRun): Finding[] {
  const [one, other] = [describeMean(view, before), describeMean(view, after)];
  if (!after || !one || !other || !areApart(one, other)) return [];
  return [
    {
      kind: "sign of the baseline",
      severity: "warning",
      place: view.formatArea(after),
      what: `The ${direction} baseline is ${formatFigure(one.mean, 3)} Pa before and ${formatFigure(other.mean, 3)} Pa after the test: the sign changed.`,
      why,
      todo,
    },
  ];
}

function compareDirections({ view }: Review, [one, other]: DirectionPair): Finding[] {
  const [first, second] = [one, other].map((run) => describeMean(view, run.before) ?? describeMean(view, run.after));
  const area = other.before ?? other.after;
  if (!area || !first || !second || !areApart(first, second)) return [];
  return [
    {
      kind: "sign of the baseline",
      severity: "warning",
      place: view.formatArea(area),
      what: `The baseline is ${formatFigure(first.mean, 3)} Pa in ${one.direction} and ${formatFigure(second.mean, 3)} Pa in ${other.direction}, though wind and temperatures were nearly the same.`,
      why,
      todo,
    },
  ];
}

/** The readings fit a straight line far better with the baseline's sign reversed. */
function findBetterTurned(review: Review, run: EnteredRun): Finding[] {
  const { view } = review;
  const baseline = run.before;
  if (!baseline || Math.abs(describeMean(view, baseline)?.mean ?? 0) < leastTurned) return [];
  const turnSigns = (area: SheetArea): unknown[][] =>
    readValues(view, area).map((row) => row.map((value) => (typeof value === "number" ? -value : value)));
  const own = readResult(review, run, "s_n");
  const changed = { before: turnSigns(baseline), ...(run.after && { after: turnSigns(run.after) }) };
  const other = readResult(review, run, "s_n", changed);
  if (
    own === undefined ||
    other === undefined ||
    !(other < own / worstByChance(run.readings.filter(({ counts }) => counts).length))
  )
    return [];
  return [
    {
      kind: "sign of the baseline",
      severity: "warning",
      place: view.formatArea(baseline),
      what: `With the sign of the ${run.direction} baseline reversed, the readings fit their line ${formatFigure(own / other, 2)} times better (standard error of n ${formatFigure(other, 2)} instead of ${formatFigure(own, 2)}).`,
      why,
      todo,
    },
  ];
}

/** A mean of baseline readings with its standard error, which is 0 for a single one. */
interface Mean {
  readonly mean: number;
  readonly error: number;
}

function areApart(one: Mean, other: Mean): boolean {
  const isClear = ({ mean, error }: Mean) => Math.abs(mean) >= clear && Math.abs(mean) >= certain * error;
  return one.mean * other.mean < 0 && isClear(one) && isClear(other);
}

function describeMean(view: Inspector, area: SheetArea | undefined): Mean | undefined {
  const numbers = area ? view.listCells(area).flatMap((place) => view.readNumber(place) ?? []) : [];
  const count = numbers.length;
  if (count === 0) return undefined;
  const mean = numbers.reduce((sum, value) => sum + value, 0) / count;
  const squares = numbers.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, error: count > 1 ? Math.sqrt(squares / (count - 1) / count) : 0 };
}
