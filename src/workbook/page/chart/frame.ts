import { isDateFormat } from "numfmt";
import type { ChartAxis } from "../../file/appearance/charts";
import { colours } from "../../graph/line-style";
import { chooseAxisEnds, chooseLabelledTicks, createLogScale } from "../../graph/axes";
import { writeElement } from "../../graph/svg";
import { fitText, drawText, measureText } from "../../graph/text";
import { formatCellText } from "../cell-text";

/** The rectangle containing the points or bars of a chart, in pixels. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The positions and texts of the words along an axis. */
interface Words {
  readonly at: number;
  readonly text: string;
}

const drawRule = (x1: number, y1: number, x2: number, y2: number, stroke: string) =>
  writeElement("line", { x1, y1, x2, y2, stroke, "stroke-width": 0.8 });

/** Room on the right for half of the last number below. */
export const rightMargin = 24;

/** The greatest width for numbers beside or below an axis. */
export const numberRoom = 120;

/** Where the plot starts, leaving room for the words beside it and the axis title. */
export function findPlotLeft(
  { left }: Plot,
  { title, isHidden }: ChartAxis,
  words: readonly Pick<Words, "text">[],
  room: number,
): number {
  const widest = isHidden ? 0 : Math.max(0, ...words.map(({ text }) => measureText(text, letterSize)));
  return left + (title === "" ? 10 : 24) + Math.min(room, widest) + 8;
}

/** Where the plot ends, leaving room for the words below it and the axis title. */
export function findPlotBottom({ bottom }: Plot, { title }: ChartAxis): number {
  return bottom - (title === "" ? 24 : 40);
}

/** The numbers of a scale as text; none on a hidden axis. */
export function writeScaleNumbers(scale: ChartScale, { isHidden }: ChartAxis): Words[] {
  return isHidden ? [] : scale.ticks.map((tick) => ({ at: scale.place(tick), text: scale.formatTick(tick) }));
}

/** Grid lines of one axis, vertical or horizontal. */
export function drawGrid({ left, right, top, bottom }: Plot, scale: ChartScale, upright: boolean): string {
  const lines = scale.ticks.map((tick) => {
    const at = scale.place(tick);
    return upright ? drawRule(at, top, at, bottom, colours.hair) : drawRule(left, at, right, at, colours.hair);
  });
  return lines.join("");
}

/** The two axis lines, the words along them and their titles. */
export function drawFrame(
  plot: Plot,
  beside: readonly Words[],
  below: readonly Words[],
  titles: { readonly beside: string; readonly below: string },
  room: { readonly beside: number; readonly below: number },
): string {
  const { left, right, top, bottom } = plot;
  const parts = [drawRule(left, top, left, bottom, colours.grey), drawRule(left, bottom, right, bottom, colours.grey)];
  for (const { at, text } of beside) {
    const short = fitText(text, room.beside, letterSize);
    parts.push(drawText(left - 6, at + 0.36 * letterSize, short, { size: letterSize, anchor: "end" }));
  }
  for (const { at, text } of below) {
    const short = fitText(text, room.below, letterSize);
    parts.push(drawText(at, bottom + 15, short, { size: letterSize, anchor: "middle" }));
  }
  const title = { size: letterSize, colour: colours.grey, anchor: "middle" } as const;
  if (titles.beside !== "") parts.push(drawText(12, (top + bottom) / 2, titles.beside, { ...title, turned: true }));
  if (titles.below !== "") parts.push(drawText((left + right) / 2, bottom + 32, titles.below, title));
  return parts.join("");
}

/** Letters of a chart, pixels. */
export const letterSize = 11;

/** One axis: maps a value to its position, with the values of its tick labels. */
interface ChartScale {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  place(value: number): number;
  formatTick(value: number): string;
}

/** Where an axis starts and ends, in pixels, and whether its numbers are side by side or stacked. */
interface Span {
  readonly start: number;
  readonly end: number;
  readonly numbers: "beside" | "below";
}

const minute = 1 / 1440;
const hour = 1 / 24;
/** Natural steps between days and times, in days. */
const daySteps = [
  ...[1, 2, 5, 10, 15, 30].map((count) => count * minute),
  ...[1, 2, 3, 6, 12].map((count) => count * hour),
  ...[1, 2, 7, 14, 28, 91, 182, 365],
];

/** Limits so large that a step changes nothing would give endless ticks. */
const mostTicks = 1000;

function roundStep(least: number, isDate: boolean): number {
  const day = isDate ? daySteps.find((step) => step >= least * (1 - 1e-9)) : undefined;
  if (day !== undefined) return day;
  const decade = 10 ** Math.floor(Math.log10(least));
  return decade * ([1, 2, 2.5, 5].find((part) => part * decade >= least * (1 - 1e-9)) ?? 10);
}

/** The limits of an axis for a given step, and the ticks between them. */
function placeTicks({ low, high }: ChartAxis, least: number, most: number, step: number): [number, number, number[]] {
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

/** An axis covering all values; a limit given by the chart is kept, the other is rounded. Starts at 0 if `fromZero` is set or 0 is near. Undefined if the chart's limits leave no values between them. */
export function chooseScale(
  axis: ChartAxis,
  values: readonly number[],
  date1904: boolean,
  { start, end, numbers }: Span,
  fromZero: boolean,
): ChartScale | undefined {
  const [from, to] = axis.isReversed ? [end, start] : [start, end];
  const formatTick = (value: number) => formatCellText(value, axis.format, date1904);
  const measureTick = (tick: number) =>
    numbers === "below" ? measureText(formatTick(tick), letterSize) + 14 : 2.2 * letterSize;
  if (axis.isLogarithmic) {
    const own = chooseAxisEnds(values.filter((value) => value > 0));
    const [low, high] = [axis.low ?? own.low, axis.high ?? own.high];
    if (!(low > 0 && high > low)) return undefined;
    const scale = createLogScale(low, high, from, to);
    return { ...scale, ticks: chooseLabelledTicks(scale, measureTick), formatTick };
  }
  let [least, most] = findRange(values);
  const isDate = isDateFormat(axis.format) === true;
  if (fromZero || (!isDate && least > 0 && most - least > most / 6)) least = Math.min(0, least);
  if (fromZero || (!isDate && most < 0 && most - least > -least / 6)) most = Math.max(0, most);
  if (most === least) most = least + (isDate ? 1 : Math.max(1, Math.abs(least)) / 2);
  const ends = [axis.low ?? least, axis.high ?? most] as const;
  if (!(ends[1] > ends[0])) return undefined;
  const widest = Math.max(measureTick(ends[0]), measureTick(ends[1]));
  let step = roundStep(((ends[1] - ends[0]) * widest) / Math.abs(end - start), isDate);
  let [low, high, ticks] = placeTicks(axis, least, most, step);
  // A format with few digits would repeat one number at several ticks.
  while (ticks.length > 1 && new Set(ticks.map(formatTick)).size < ticks.length) {
    step = roundStep(1.01 * step, isDate);
    [low, high, ticks] = placeTicks(axis, least, most, step);
  }
  const place = (value: number) => from + ((to - from) * (value - low)) / (high - low);
  return { low, high, ticks, place, formatTick };
}

/** The smallest and the largest; spreading very many values into Math.min would overflow the stack. */
function findRange(values: readonly number[]): [least: number, most: number] {
  return values.reduce<[number, number]>(
    ([least, most], value) => [Math.min(least, value), Math.max(most, value)],
    [Infinity, -Infinity],
  );
}
