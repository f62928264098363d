import type { Chart, ChartLabels } from "../../file/appearance/charts";
import { colours } from "../../graph/line-style";
import { writeElement } from "../../graph/svg";
import { drawText } from "../../graph/text";
import { ErrorValue } from "../../model";
import { palette } from "../../palette";
import { formatCellText } from "../cell-text";
import type { SheetView } from "../sheet-view";
import {
  findPlotBottom,
  chooseScale,
  drawFrame,
  drawGrid,
  findPlotLeft,
  letterSize,
  numberRoom,
  writeScaleNumbers,
  type Plot,
  rightMargin,
} from "./frame";
import { drawLegend, drawLine, drawMark } from "./legend";
import { type ColouredSeries, readSeries, type DrawnSeries, isNumber } from "./series";

/** Pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** For series whose colour is left to the theme or the program. */
const ownColours = [palette.petrol, palette.copper, palette.petrolMid, palette.inputEdge, palette.open, palette.grey];

/** Of a line, bar or mark, whichever has a colour in the file first. */
function chooseColour({ series }: DrawnSeries, index: number): string {
  const { mark, line, fill } = series;
  return `#${mark?.colour ?? line?.colour ?? fill ?? ownColours[index % ownColours.length] ?? palette.ink}`;
}

/** A smaller frame, in pixels, has no room for numbers and words. */
const smallest: Size = { width: 160, height: 100 };

/** A chart drawn from the current values of its cells, simpler than the original; undefined if it cannot be drawn, is too small or has no numbers. */
export function drawChart(
  chart: Chart,
  views: readonly SheetView[],
  { width, height }: Size,
  words: string,
): string | undefined {
  if (width < smallest.width || height < smallest.height) return undefined;
  const found = readSeries(chart, views);
  if (!found || !found.some(({ values }) => values.some(isNumber))) return undefined;
  const drawn = found.map((one, index) => ({ ...one, colour: chooseColour(one, index) }));
  const isBars = chart.kind !== "points";
  const legend = chart.hasLegend ? drawLegend(drawn, isBars, width) : { svg: "", height: 0 };
  const area = { left: 0, right: width, top: legend.height, bottom: height };
  const date1904 = views[0]?.date1904 ?? false;
  const content = isBars ? drawBars(chart, drawn, area, date1904) : drawPoints(chart, drawn, area, date1904);
  if (content === undefined) return undefined;
  const label = words === "" ? "Chart" : words;
  return writeElement(
    "svg",
    { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": label },
    legend.svg + content,
  );
}

/** The share of a category's width that its bars take. */
const filled = 0.7;

/** Bars side by side, vertical or horizontal; undefined if no value is a number. */
function drawBars(chart: Chart, drawn: readonly ColouredSeries[], area: Plot, date1904: boolean): string | undefined {
  const { first, second } = chart;
  const lies = chart.kind === "bars";
  const values = drawn.flatMap((one) => one.values.filter(isNumber));
  const count = drawn.reduce((most, { values }) => Math.max(most, values.length), 0);
  if (second.isLogarithmic || values.length === 0) return undefined;
  const categories = drawn.find((one) => one.categories.length > 0)?.categories ?? [];
  const names = Array.from({ length: count }, (_, index) =>
    formatCellText(categories.length > 0 ? (categories[index] ?? "") : index + 1, "General", date1904),
  );
  const [besideAxis, belowAxis] = lies ? [first, second] : [second, first];
  const [top, bottom] = [area.top + 8, findPlotBottom(area, belowAxis)];
  const besideRoom = lies ? 0.35 * (area.right - area.left) : numberRoom;
  const right = area.right - rightMargin;
  const scaleFor = (start: number, end: number) =>
    chooseScale(second, values, date1904, { start, end, numbers: lies ? "below" : "beside" }, true);
  // The numbers beside the plot determine its width, so a vertical chart needs its scale first.
  const upright = scaleFor(bottom, top);
  if (!upright) return undefined;
  const besideWords = lies ? names.map((text) => ({ text })) : writeScaleNumbers(upright, second);
  const left = findPlotLeft(area, besideAxis, besideWords, besideRoom);
  const plot: Plot = { left, right, top, bottom };
  const scale = lies ? (scaleFor(left, right) ?? upright) : upright;
  // Horizontal bars are ordered from the bottom, as in the original, unless the axis is reversed.
  const [start, end] = lies ? [bottom, top] : [left, right];
  const [from, to] = first.isReversed ? [end, start] : [start, end];
  const band = (to - from) / count;
  const findMiddle = (index: number) => from + (index + 0.5) * band;
  const thickness = (Math.abs(band) * filled) / drawn.length;
  const base = scale.place(Math.max(scale.low, Math.min(scale.high, 0)));
  const bars = drawn.flatMap((one, place) =>
    one.values.flatMap((value, index) => {
      if (!isNumber(value)) return [];
      const side = findMiddle(index) + Math.sign(band) * (place - (drawn.length - 1) / 2) * thickness - thickness / 2;
      const tip = scale.place(Math.max(scale.low, Math.min(scale.high, value)));
      const [near, length] = [Math.min(base, tip), Math.abs(tip - base)];
      const box = lies
        ? { x: near, y: side, width: length, height: thickness }
        : { x: side, y: near, width: thickness, height: length };
      return [writeElement("rect", { ...box, fill: one.colour })];
    }),
  );
  const named = first.isHidden ? [] : names.map((text, index) => ({ at: findMiddle(index), text }));
  const numbers = writeScaleNumbers(scale, second);
  const zero = lies
    ? writeElement("line", { x1: base, y1: top, x2: base, y2: bottom, stroke: colours.grey, "stroke-width": 0.8 })
    : writeElement("line", { x1: left, y1: base, x2: right, y2: base, stroke: colours.grey, "stroke-width": 0.8 });
  return [
    second.hasGrid ? drawGrid(plot, scale, lies) : "",
    drawFrame(
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

type Pair = readonly [across: number, value: number];

/** What each row of a series gives: a pair of numbers, undefined if the line skips it, "gap" if the line breaks. As in the original, an error value is skipped and a blank is a gap. */
function collectPairs({ first, second }: Chart, { categories, values }: ColouredSeries): (Pair | "gap" | undefined)[] {
  return values.map((value, index) => {
    const across = categories.length === 0 ? index + 1 : categories[index];
    if (value instanceof ErrorValue || across instanceof ErrorValue) return undefined;
    if (!isNumber(value) || !isNumber(across)) return "gap";
    const isPlaced = (!first.isLogarithmic || across > 0) && (!second.isLogarithmic || value > 0);
    return isPlaced ? [across, value] : "gap";
  });
}

/** Pairs joined by a line, segment by segment. */
function splitIntoPieces(pairs: readonly (Pair | "gap" | undefined)[]): Pair[][] {
  const pieces: Pair[][] = [[]];
  for (const pair of pairs) {
    if (pair === "gap") pieces.push([]);
    else if (pair) pieces.at(-1)!.push(pair);
  }
  return pieces.filter((piece) => piece.length > 0);
}

type PlacedSeries = { readonly one: ColouredSeries; readonly pieces: readonly Pair[][] };

const writeLabel = (
  { name }: ColouredSeries,
  { shows, format }: ChartLabels,
  [, value]: Pair,
  date1904: boolean,
): string => (shows === "name" ? name : formatCellText(value, format, date1904));

/** The labels to the left of the leftmost points: the numbers of a scale of its own stand there where the axis has none. */
function listLabelsAtEdge(all: readonly PlacedSeries[], date1904: boolean): { readonly text: string }[] {
  const leftmost = Math.min(...all.flatMap(({ pieces }) => pieces.flat().map(([across]) => across)));
  return all.flatMap(({ one, pieces }) => {
    const { labels } = one.series;
    if (labels?.place !== "l") return [];
    const atEdge = pieces.flat().filter(([across]) => across === leftmost);
    return atEdge.map((pair) => ({ text: writeLabel(one, labels, pair, date1904) }));
  });
}

/** An XY chart, points joined or not; undefined if none can be placed. */
function drawPoints(chart: Chart, drawn: readonly ColouredSeries[], area: Plot, date1904: boolean): string | undefined {
  const { first, second } = chart;
  const all = drawn.map((one) => ({ one, pieces: splitIntoPieces(collectPairs(chart, one)) }));
  const placed = all.flatMap(({ pieces }) => pieces.flat());
  if (placed.length === 0) return undefined;
  const [top, bottom] = [area.top + 10, findPlotBottom(area, first)];
  const values = placed.map(([, value]) => value);
  const up = chooseScale(second, values, date1904, { start: bottom, end: top, numbers: "beside" }, false);
  if (!up) return undefined;
  const beside = writeScaleNumbers(up, second);
  const left = findPlotLeft(
    area,
    { ...second, isHidden: false },
    [...beside, ...listLabelsAtEdge(all, date1904)],
    numberRoom,
  );
  const plot: Plot = { left, right: area.right - rightMargin, top, bottom };
  const across = placed.map(([value]) => value);
  const along = chooseScale(first, across, date1904, { start: left, end: plot.right, numbers: "below" }, false);
  if (!along) return undefined;
  const below = writeScaleNumbers(along, first);
  const [lines, marks, labels]: [string[], string[], string[]] = [[], [], []];
  for (const { one, pieces } of all) {
    const { line, mark, labels: wanted } = one.series;
    const placePair = ([across, value]: Pair) => [along.place(across), up.place(value)] as const;
    if (line) for (const piece of pieces) lines.push(drawLine(piece.map(placePair), line, one.colour));
    for (const pair of pieces.flat()) {
      const [x, y] = placePair(pair);
      if (x < left - 1 || x > plot.right + 1 || y < top - 1 || y > bottom + 1) continue;
      if (mark) marks.push(drawMark(mark, x, y, one.colour));
      if (wanted) labels.push(label(x, y, wanted.place, writeLabel(one, wanted, pair, date1904)));
    }
  }
  const clipped = writeElement(
    "svg",
    {
      x: left,
      y: top,
      width: plot.right - left,
      height: bottom - top,
      viewBox: `${left} ${top} ${plot.right - left} ${bottom - top}`,
    },
    lines.join(""),
  );
  return [
    first.hasGrid ? drawGrid(plot, along, true) : "",
    second.hasGrid ? drawGrid(plot, up, false) : "",
    drawFrame(
      plot,
      beside,
      below,
      { beside: second.title, below: first.title },
      { beside: numberRoom, below: numberRoom },
    ),
    clipped,
    ...marks,
    ...labels,
  ].join("");
}

function label(x: number, y: number, place: string, text: string): string {
  const middle = y + 0.36 * letterSize;
  const look = { size: letterSize, edge: true } as const;
  switch (place) {
    case "l":
      return drawText(x - 7, middle, text, { ...look, anchor: "end" });
    case "t":
      return drawText(x, y - 7, text, { ...look, anchor: "middle" });
    case "b":
      return drawText(x, y + 7 + 0.8 * letterSize, text, { ...look, anchor: "middle" });
    case "ctr":
      return drawText(x, middle, text, { ...look, anchor: "middle" });
    default:
      return drawText(x + 7, middle, text, look);
  }
}
