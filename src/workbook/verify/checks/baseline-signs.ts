import type { SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Finding } from "../finding";
import type { DirectionPair } from "../../book/tests/direction-pairs";
import type { Check, Review } from "../review";
import { type EnteredRun, readResult, readValues } from "../../book/tests/entered-runs";
import { formatFigure } from "../../words";

/** Below this, in Pa, the sign of a mean is down to chance. */
const clear = 0.5;

/** Baselines whose sign is inconsistent with the rest of the test. */
export const checkBaselineSigns: Check = (review) => [
  ...review.runs.flatMap((run) => [...compareSets(review, run), ...findBetterTurned(review, run)]),
  ...review.tests.pairs.flatMap((pair) => compareDirections(review, pair)),
];

const why =
  "A baseline with the wrong sign shifts every induced pressure by twice the baseline, and the fit hardly shows it.";
const todo = "Compare the baseline readings with the gauge log: indoors minus outdoors, flow device covered.";

function compareSets({ view }: Review, { before, after, direction }: EnteredRun): Finding[] {
  const [one, other] = [computeMean(view, before), computeMean(view, after)];
  if (!before || !after || !areApart(one, other)) return [];
  return [
    {
      kind: "sign of the baseline",
      severity: "warning",
      place: view.formatArea(after),
      what: `The ${direction} baseline is ${formatFigure(one ?? 0, 3)} Pa before and ${formatFigure(other ?? 0, 3)} Pa after the test: the sign changed.`,
      why,
      todo,
    },
  ];
}

function compareDirections({ view }: Review, [one, other]: DirectionPair): Finding[] {
  const means = [one, other].map((run) => computeMean(view, run.before) ?? computeMean(view, run.after));
  const area = other.before ?? other.after;
  if (!area || !areApart(means[0], means[1])) return [];
  return [
    {
      kind: "sign of the baseline",
      severity: "warning",
      place: view.formatArea(area),
      what: `The baseline is ${formatFigure(means[0] ?? 0, 3)} Pa in ${one.direction} and ${formatFigure(means[1] ?? 0, 3)} Pa in ${other.direction}, though wind and temperatures were nearly the same.`,
      why,
      todo,
    },
  ];
}

/** The readings fit a straight line far better with the baseline's sign reversed. */
function findBetterTurned(review: Review, run: EnteredRun): Finding[] {
  const { view } = review;
  const baseline = run.before;
  if (!baseline || Math.abs(computeMean(view, baseline) ?? 0) < clear) return [];
  const turnSigns = (area: SheetArea): unknown[][] =>
    readValues(view, area).map((row) => row.map((value) => (typeof value === "number" ? -value : value)));
  const own = readResult(review, run, "s_n");
  const changed = { before: turnSigns(baseline), ...(run.after && { after: turnSigns(run.after) }) };
  const other = readResult(review, run, "s_n", changed);
  if (own === undefined || other === undefined || !(other < own / 2)) return [];
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

function areApart(one: number | undefined, other: number | undefined): boolean {
  return (
    one !== undefined && other !== undefined && one * other < 0 && Math.min(Math.abs(one), Math.abs(other)) >= clear
  );
}

function computeMean(view: Inspector, area: SheetArea | undefined): number | undefined {
  const numbers = area ? view.listCells(area).flatMap((place) => view.readNumber(place) ?? []) : [];
  return numbers.length === 0 ? undefined : numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
}
