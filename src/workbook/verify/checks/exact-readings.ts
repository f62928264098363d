import { assumedExponent, chiSquareProbability, mean, moments, residualsOf } from "../../../core/index";
import type { SheetArea } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { EnteredRun } from "../../book/tests/entered-runs";
import { sumFlow } from "../../book/tests/entered-runs";
import { formatCount, formatFigure } from "../../formatting";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";

/** Readings whose pressures are equal steps and whose flows are the rounded figures of a line; baselines that never move. */
export const findExactReadings: Check = (review) => [
  ...review.runs.flatMap((run) => findExactSteps(review, run)),
  ...findConstantBaselines(review),
];

/** Gauges show tenths of a pascal. */
const resolution = 0.1;

/** The standard deviation of a figure rounded to a step of 1 (a uniform distribution, JCGM 100:2008 4.3.7). */
const rounding = 1 / Math.sqrt(12);

/** Readings are averages over a longer time than zero readings; at least this part of their scatter is left. */
const leastShare = 0.25;

/** χ² below its 1 % point, beside pressures in equal steps. */
const tooExact = 0.01;
const leastReadings = 5;
const leastStep = 1;

/** Readings in the order of the sheet, Pa without signs; flows in any unit. */
export interface EnteredFigures {
  readonly pressures: readonly number[];
  readonly flows: readonly number[];
  /** What the flows are rounded to; 0 for flows that a formula computes. */
  readonly flowStep: number;
  /** Mean zero-flow pressure in the direction of the readings, Pa. */
  readonly zero: number;
  /** Standard deviation of the zero readings, Pa. */
  readonly scatter: number;
}

/**
 * Whether readings are in equal steps to the last digit and also closer to a power law than the gauge's own resolution allows. Of 20 000 simulated
 * honest directions (5 to 10 readings, gauges of 0.1 Pa, pressures held to 0.05 to 0.5 Pa of their steps, scatter of 0.02 to 1 Pa) fewer than
 * 0.02 % are; readings in whole pascals scatter more than a line with exact steps does.
 */
export function areComputed(figures: EnteredFigures): boolean {
  const { pressures, zero } = figures;
  if (pressures.length < leastReadings || !areEqualSteps(pressures)) return false;
  // Whoever computes flows may have thought of the baseline or not.
  return [0, zero].some((shift) => measureChance(figures, shift) < tooExact);
}

function areEqualSteps(pressures: readonly number[]): boolean {
  const sorted = [...pressures].sort((a, b) => a - b);
  const steps = sorted.slice(1).map((pressure, index) => pressure - (sorted[index] ?? 0));
  const [first = 0] = steps;
  return first >= leastStep && steps.every((step) => Math.abs(step - first) < 1e-6);
}

/** The probability of so small a χ² about the line through the logarithms, where resolution and the least scatter are all the noise there is. */
function measureChance({ pressures, flows, flowStep, scatter }: EnteredFigures, shift: number): number {
  const induced = pressures.map((pressure) => pressure - shift);
  if (![...induced, ...flows].every((value) => value > 0)) return 1;
  const ofPressure = Math.hypot(resolution * rounding, leastShare * scatter);
  const weights = induced.map((pressure, index) => {
    const deviation = Math.hypot(
      (assumedExponent * ofPressure) / pressure,
      (flowStep * rounding) / (flows[index] ?? 1),
    );
    return 1 / deviation ** 2;
  });
  const sums = moments({ x: induced.map(Math.log), y: flows.map(Math.log) }, weights);
  const residuals = residualsOf({ exponent: sums.sumXY / sums.sumXX, moments: sums });
  const square = residuals.reduce((total, residual, index) => total + (weights[index] ?? 0) * residual ** 2, 0);
  return chiSquareProbability(square, pressures.length - 2);
}

function findExactSteps({ view }: Review, run: EnteredRun): Finding[] {
  const pressures = run.readings.flatMap(({ pressure }) => view.readNumber(pressure) ?? []);
  const flows = run.readings.flatMap((reading) => sumFlow(view, reading) ?? []);
  if (pressures.length !== run.readings.length || flows.length !== pressures.length) return [];
  if (!run.readings.every(({ pressure }) => view.isTyped(pressure))) return [];
  const sign = Math.sign(pressures[0] ?? 0);
  const isTyped = run.readings.every((reading) => reading.flows.every((flow) => view.isTyped(flow)));
  const zeros = [run.before, run.after].map((area) => readSet(view, area));
  const means = zeros.filter((set) => set.length > 0).map(mean);
  const figures: EnteredFigures = {
    pressures: pressures.map((pressure) => sign * pressure),
    flows,
    flowStep: isTyped ? findStep(flows) : 0,
    zero: means.length > 0 ? sign * mean(means) : 0,
    scatter: measureScatter(zeros),
  };
  if (!areComputed(figures)) return [];
  const [first = 0, second = 0] = pressures;
  return [
    {
      kind: "readings implausibly smooth",
      severity: "warning",
      place: view.formatArea(run.pressures),
      what:
        `The ${formatCount(pressures.length, `${run.direction} reading`)} are exactly ${formatFigure(Math.abs(second - first))} Pa apart, and their flows ` +
        "lie closer to one line than a gauge of 0.1 Pa can show.",
      why: "Measured readings scatter, in pressure or in flow; these were computed.",
      todo: "Ask for the gauge log.",
    },
  ];
}

const readSet = (view: Inspector, area: SheetArea | undefined): number[] =>
  area ? view.listCells(area).flatMap((place) => view.readNumber(place) ?? []) : [];

/** The pooled standard deviation of the sets. */
function measureScatter(sets: readonly (readonly number[])[]): number {
  const known = sets.filter(({ length }) => length > 1);
  const degrees = known.reduce((total, { length }) => total + length - 1, 0);
  if (degrees === 0) return 0;
  const squares = known.map((set) => {
    const middle = mean(set);
    return set.reduce((total, value) => total + (value - middle) ** 2, 0);
  });
  return Math.sqrt(squares.reduce((a, b) => a + b, 0) / degrees);
}

/** The last digit to which any of some figures is written: 0.1, 1. */
function findStep(figures: readonly number[]): number {
  const decimals = figures.map((figure) => /\.(\d+)$/.exec(String(figure))?.[1]?.length ?? 0);
  return 10 ** -decimals.reduce((a, b) => Math.max(a, b), 0);
}

/** So many zero readings, in sets of one value each: with a scatter of 0.05 Pa, in 0.045 % of tests at most (0.68²⁰). */
const leastConstant = 20;

/** A mean filled into every row: all zero readings of both directions are one figure, set by set. */
function findConstantBaselines({ view, runs, tests }: Review): Finding[] {
  const partners = new Map(tests.pairs.flatMap(([one, other]) => [[one, other] as const]));
  const seconds = new Set(partners.values());
  return runs.flatMap((run): Finding[] => {
    if (seconds.has(run)) return [];
    const other = partners.get(run);
    const areas = new Map(
      [run.before, run.after, other?.before, other?.after].flatMap((area) =>
        area ? [[view.formatArea(area), area]] : [],
      ),
    );
    const sets = [...areas.values()].map((area) => ({ area, values: readSet(view, area) }));
    const [first] = sets;
    const count = sets.reduce((total, { values }) => total + values.length, 0);
    if (!first || count < leastConstant) return [];
    const isMeasured = sets.every(({ area, values }) => values.length > 2 && isTypedIn(view, area));
    if (!isMeasured || sets.some(({ values }) => new Set(values).size > 1)) return [];
    return [
      {
        kind: "readings implausibly smooth",
        severity: "warning",
        place: view.formatArea(first.area),
        what: `All ${count} baseline readings are the same to the last digit, set by set (${sets.map(({ area, values }) => `${formatFigure(values[0] ?? 0)} Pa in ${view.formatArea(area)}`).join(", ")}).`,
        why: "A zero reading moves with the wind; a mean in every row hides how uncertain it is.",
        todo: "Ask for the single readings of the gauge log.",
      },
    ];
  });
}

const isTypedIn = (view: Inspector, area: SheetArea): boolean =>
  view.listFilledCells(area).every((place) => view.isTyped(place));
