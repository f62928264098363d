import type { Chart } from "../../file/looks/charts";
import { colours } from "../../graph/looks";
import { element } from "../../graph/svg";
import { isNumber, type ColouredSeries } from "./values";
import { bottomOf, frame, grid, leftOf, numberRoom, numbersOf, rightMargin, type Plot } from "./frame";
import { chartScale } from "./scale";
import { cellText } from "../cell-text";

/** The share of a category's width that its bars take. */
const filled = 0.7;

/** Bars side by side, upright or lying; undefined where no value is a number. */
export function barsOf(
  chart: Chart,
  drawn: readonly ColouredSeries[],
  area: Plot,
  date1904: boolean,
): string | undefined {
  const { first, second } = chart;
  const lies = chart.kind === "bars";
  const values = drawn.flatMap((one) => one.values.filter(isNumber));
  const count = drawn.reduce((most, { values }) => Math.max(most, values.length), 0);
  if (second.isLogarithmic || values.length === 0) return undefined;
  const categories = drawn.find((one) => one.categories.length > 0)?.categories ?? [];
  const names = Array.from({ length: count }, (_, index) =>
    cellText(categories.length > 0 ? (categories[index] ?? "") : index + 1, "General", date1904),
  );
  const [besideAxis, belowAxis] = lies ? [first, second] : [second, first];
  const [top, bottom] = [area.top + 8, bottomOf(area, belowAxis)];
  const besideRoom = lies ? 0.35 * (area.right - area.left) : numberRoom;
  const right = area.right - rightMargin;
  const scaleFor = (start: number, end: number) =>
    chartScale(second, values, date1904, { start, end, numbers: lies ? "below" : "beside" }, true);
  // Numbers beside the plot decide how wide it is, so an upright chart needs its scale first.
  const upright = scaleFor(bottom, top);
  if (!upright) return undefined;
  const besideWords = lies ? names.map((text) => ({ text })) : numbersOf(upright, second);
  const left = leftOf(area, besideAxis, besideWords, besideRoom);
  const plot: Plot = { left, right, top, bottom };
  const scale = lies ? (scaleFor(left, right) ?? upright) : upright;
  // Lying bars are counted from below, as the program does, unless the axis is turned round.
  const [start, end] = lies ? [bottom, top] : [left, right];
  const [from, to] = first.isReversed ? [end, start] : [start, end];
  const band = (to - from) / count;
  const middleOf = (index: number) => from + (index + 0.5) * band;
  const thickness = (Math.abs(band) * filled) / drawn.length;
  const base = scale.place(Math.max(scale.low, Math.min(scale.high, 0)));
  const bars = drawn.flatMap((one, place) =>
    one.values.flatMap((value, index) => {
      if (!isNumber(value)) return [];
      const side = middleOf(index) + Math.sign(band) * (place - (drawn.length - 1) / 2) * thickness - thickness / 2;
      const tip = scale.place(Math.max(scale.low, Math.min(scale.high, value)));
      const [near, length] = [Math.min(base, tip), Math.abs(tip - base)];
      const box = lies
        ? { x: near, y: side, width: length, height: thickness }
        : { x: side, y: near, width: thickness, height: length };
      return [element("rect", { ...box, fill: one.colour })];
    }),
  );
  const named = first.isHidden ? [] : names.map((text, index) => ({ at: middleOf(index), text }));
  const numbers = numbersOf(scale, second);
  const zero = lies
    ? element("line", { x1: base, y1: top, x2: base, y2: bottom, stroke: colours.grey, "stroke-width": 0.8 })
    : element("line", { x1: left, y1: base, x2: right, y2: base, stroke: colours.grey, "stroke-width": 0.8 });
  return [
    second.hasGrid ? grid(plot, scale, lies) : "",
    frame(
      plot,
      lies ? named : numbers,
      lies ? numbers : named,
      { beside: besideAxis.title, below: belowAxis.title },
      { beside: besideRoom, below: lies ? numberRoom : Math.abs(band) - 4 },
    ),
    ...bars,
    zero,
  ].join("");
}
