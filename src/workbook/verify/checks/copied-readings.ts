import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { isComputedFrom, isOneSeries, type MeasuredReading, measureSeries } from "../compared-tests";
import type { EnteredRun } from "../../book/tests/entered-runs";
import { formatCount, formatFigure } from "../../formatting";

const leastReadings = 4;
const leastShare = 0.6;

type Pair = readonly [MeasuredReading, MeasuredReading];

/** Readings of one test repeated in another: two measurements never agree to the last digit throughout. */
export const findCopiedReadings: Check = (review) => {
  const series = new Map(review.runs.map((run) => [run, measureSeries(review.view, run)]));
  return review.runs.flatMap((one, index) => [
    ...findRepeated(review, one, series.get(one) ?? []),
    ...review.runs.slice(index + 1).flatMap((other) => {
      if (review.view.formatArea(one.pressures) === review.view.formatArea(other.pressures)) return [];
      const computed = isComputedFrom(review.view, one, other)
        ? ([one, other] as const)
        : isComputedFrom(review.view, other, one)
          ? ([other, one] as const)
          : undefined;
      if (computed) return computed[0].direction === computed[1].direction ? [] : [reportDerived(review, ...computed)];
      if (one.direction === other.direction && isOneSeries(review.view, one, other)) return [];
      const [a, b] = [series.get(one) ?? [], series.get(other) ?? []];
      const inOrder = compareReadings(review, one, other, pairReadings(a, b));
      // A copy may be in reverse order.
      return inOrder.length > 0
        ? inOrder
        : compareReadings(review, one, other, pairReadings(sortByPressure(a), sortByPressure(b)));
    }),
  ]);
};

const sortByPressure = (series: readonly MeasuredReading[]): MeasuredReading[] =>
  [...series].sort((one, other) => one.pressure - other.pressure);

const pairReadings = (one: readonly MeasuredReading[], other: readonly MeasuredReading[]): Pair[] =>
  one.flatMap((reading, index): Pair[] => {
    const partner = other[index];
    return partner ? [[reading, partner]] : [];
  });

function reportDerived({ view }: Review, run: EnteredRun, source: EnteredRun): Finding {
  return {
    kind: "copied readings",
    severity: "error",
    place: view.formatArea(run.pressures),
    what: `The pressures of ${run.direction} are computed from those of ${source.direction} in ${view.formatArea(source.pressures)}.`,
    why: "Each direction is a separate measurement; one computed from the other merely repeats it.",
    todo: "Ask for the gauge log of both series, or report a single direction.",
  };
}

function compareReadings({ view }: Review, one: EnteredRun, other: EnteredRun, pairs: readonly Pair[]): Finding[] {
  const flows = pairs.filter(([a, b]) => isSame(a.flows, b.flows));
  const pressures = pairs.filter(([a, b]) => a.pressure === b.pressure);
  // Whole pascals are often the target pressures, and both directions may share them.
  const telling = pressures.filter(([a]) => !Number.isInteger(a.pressure));
  const isEnough = (count: number): boolean => count >= leastReadings && count >= leastShare * pairs.length;
  const steps = isEnough(flows.length) || isEnough(telling.length) ? undefined : findSteadyStep(pairs);
  if (!isEnough(flows.length) && !isEnough(telling.length) && steps === undefined) return [];
  const what = isEnough(flows.length)
    ? isEnough(pressures.length)
      ? "the same pressures and flow figures as"
      : "the same flow figures as"
    : steps === undefined
      ? "the same pressures as"
      : `${steps} than`;
  const count = isEnough(flows.length) ? flows.length : steps === undefined ? telling.length : pairs.length;
  return [
    {
      kind: "copied readings",
      severity: "error",
      place: view.formatArea(other.pressures),
      what: `${formatCount(count, "reading")} of ${pairs.length} have ${what} ${one.direction} in ${view.formatArea(one.pressures)}, to the last digit.`,
      why: "Two series never agree throughout: one was copied, not measured.",
      todo: "Ask for the gauge log of both series.",
    },
  ];
}

const leastSteps = 5;

/** The constant step between all pressures, or all flows, of two series, in words; undefined if there is none, or the pressures are whole. */
function findSteadyStep(pairs: readonly Pair[]): string | undefined {
  if (pairs.length < leastSteps) return undefined;
  const isWhole = pairs.every(([a, b]) => Number.isInteger(a.pressure) && Number.isInteger(b.pressure));
  const ofPressure = isWhole ? undefined : findSteadyDifference(pairs.map(([a, b]) => b.pressure - a.pressure));
  const lone = pairs.every(([a, b]) => a.flows.length === 1 && b.flows.length === 1);
  const ofFlow = lone ? findSteadyDifference(pairs.map(([a, b]) => (b.flows[0] ?? 0) - (a.flows[0] ?? 0))) : undefined;
  if (ofFlow !== undefined && ofFlow !== 0)
    return `flow figures by ${formatFigure(Math.abs(ofFlow))} ${sayMoreOrLess(ofFlow)}`;
  if (ofPressure === undefined || ofPressure === 0) return undefined;
  return `pressures by ${formatFigure(Math.abs(ofPressure))} Pa ${sayMoreOrLess(ofPressure)}`;
}

const sayMoreOrLess = (step: number): string => (step > 0 ? "more" : "less");

/** The common difference of a list, within binary rounding; undefined if it varies. */
function findSteadyDifference(differences: readonly number[]): number | undefined {
  const [first = 0] = differences;
  return differences.every((difference) => Math.abs(difference - first) < 1e-9 * Math.max(1, Math.abs(first)))
    ? first
    : undefined;
}

/**
 * Readings with the same pressure and flow figure: one convenient reading entered several times. Where gusts move the gauge by half a pascal, two readings at one
 * setting agree in tenths of a pascal and in a flow to three digits less often than once in a thousand; with fewer digits it takes a third reading, or a second pair.
 */
function findRepeated({ view }: Review, run: EnteredRun, series: readonly MeasuredReading[]): Finding[] {
  const telling = series.filter(({ pressure, flows }) => !Number.isInteger(pressure) && flows.length > 0);
  const groups = new Map<string, MeasuredReading[]>();
  for (const reading of telling) {
    const key = `${reading.pressure} ${reading.flows.join(" ")}`;
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  const alike = [...groups.values()].filter((group) => group.length > 1);
  const repeats = alike.reduce((sum, group) => sum + group.length - 1, 0);
  const [first] = alike.flat();
  if (!first || (repeats < 2 && !first.flows.every(hasThreeDigits))) return [];
  return [
    {
      kind: "copied readings",
      severity: "warning",
      place: view.formatAddress(first.place),
      what: `${formatCount(repeats, "reading")} of ${run.direction} in ${view.formatArea(run.pressures)} ${repeats === 1 ? "repeats" : "repeat"} another reading of the same series, pressure and flow to the last digit (${formatFigure(first.pressure)} Pa first).`,
      why: "A reading entered twice counts twice and pulls the line towards itself.",
      todo: "Ask for the gauge log, and keep each reading only once.",
    },
  ];
}

const hasThreeDigits = (figure: number): boolean => String(figure).replace(/^0\.0*|\./g, "").length >= 3;

const isSame = (one: readonly number[], other: readonly number[]): boolean =>
  one.length > 0 && one.length === other.length && one.every((value, index) => value === other[index]);
