import { isDateFormat } from "numfmt";
import type { ChartAxis } from "../../file/looks/charts";
import { axisEnds, labelledTicks, logScale } from "../../graph/scale";
import { textWidth } from "../../graph/text-width";
import { cellText } from "../cell-text";

/** Letters of a chart, pixels. */
export const letterSize = 11;

/** One axis: from a value to its place, with the values at which numbers stand. */
export interface ChartScale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  place(value: number): number;
  text(value: number): string;
}

/** Where an axis begins and ends, in pixels, and whether its numbers stand beside each other or below. */
export interface Span {
  readonly start: number;
  readonly end: number;
  readonly numbers: "beside" | "below";
}

const minute = 1 / 1440;
const hour = 1 / 24;
/** Steps between days and times as a person counts them, in days. */
const daySteps = [
  ...[1, 2, 5, 10, 15, 30].map((count) => count * minute),
  ...[1, 2, 3, 6, 12].map((count) => count * hour),
  ...[1, 2, 7, 14, 28, 91, 182, 365],
];

/** Ends so large that a step changes nothing would have ticks without end. */
const mostTicks = 1000;

function roundStep(least: number, isDate: boolean): number {
  const day = isDate ? daySteps.find((step) => step >= least * (1 - 1e-9)) : undefined;
  if (day !== undefined) return day;
  const decade = 10 ** Math.floor(Math.log10(least));
  return decade * ([1, 2, 2.5, 5].find((part) => part * decade >= least * (1 - 1e-9)) ?? 10);
}

/** The ends of an axis with steps of a size, and the ticks between them. */
function ticked({ low, high }: ChartAxis, least: number, most: number, step: number): [number, number, number[]] {
  const from = low ?? Math.floor(least / step + 1e-9) * step;
  const to = high ?? Math.ceil(most / step - 1e-9) * step;
  const ticks: number[] = [];
  for (
    let count = Math.ceil(from / step - 1e-9);
    count * step <= to + step * 1e-9 && ticks.length < mostTicks;
    count++
  ) {
    ticks.push(Number((count * step).toPrecision(12)));
  }
  return [from, to, ticks];
}

/** An axis that holds all values; an end that the chart gives is kept, the other one is round. Lengths are counted from 0 where `fromZero` says so or 0 is near. Undefined where the ends that the chart gives leave no value between them. */
export function chartScale(
  axis: ChartAxis,
  values: readonly number[],
  date1904: boolean,
  { start, end, numbers }: Span,
  fromZero: boolean,
): ChartScale | undefined {
  const [from, to] = axis.isReversed ? [end, start] : [start, end];
  const text = (value: number) => cellText(value, axis.format, date1904);
  const room = (tick: number) => (numbers === "below" ? textWidth(text(tick), letterSize) + 14 : 2.2 * letterSize);
  if (axis.isLogarithmic) {
    const own = axisEnds(values.filter((value) => value > 0));
    const [low, high] = [axis.low ?? own.low, axis.high ?? own.high];
    if (!(low > 0 && high > low)) return undefined;
    const scale = logScale(low, high, from, to);
    return { ...scale, ticks: labelledTicks(scale, room), text };
  }
  let [least, most] = rangeOf(values);
  const isDate = isDateFormat(axis.format) === true;
  if (fromZero || (!isDate && least > 0 && most - least > most / 6)) least = Math.min(0, least);
  if (fromZero || (!isDate && most < 0 && most - least > -least / 6)) most = Math.max(0, most);
  if (most === least) most = least + (isDate ? 1 : Math.max(1, Math.abs(least)) / 2);
  const ends = [axis.low ?? least, axis.high ?? most] as const;
  if (!(ends[1] > ends[0])) return undefined;
  const widest = Math.max(room(ends[0]), room(ends[1]));
  let step = roundStep(((ends[1] - ends[0]) * widest) / Math.abs(end - start), isDate);
  let [low, high, ticks] = ticked(axis, least, most, step);
  // A format with few digits would write one number beside several ticks.
  while (ticks.length > 1 && new Set(ticks.map(text)).size < ticks.length) {
    step = roundStep(1.01 * step, isDate);
    [low, high, ticks] = ticked(axis, least, most, step);
  }
  const place = (value: number) => from + ((to - from) * (value - low)) / (high - low);
  return { low, high, ticks, place, text };
}

/** The least and the largest; a spread into Math.min would end the program where a chart has very many values. */
function rangeOf(values: readonly number[]): [least: number, most: number] {
  return values.reduce<[number, number]>(
    ([least, most], value) => [Math.min(least, value), Math.max(most, value)],
    [Infinity, -Infinity],
  );
}
