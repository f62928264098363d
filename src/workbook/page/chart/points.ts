import type { Chart } from "../../file/looks/charts";
import { element } from "../../graph/svg";
import { textAt } from "../../graph/text";
import { ErrorValue } from "../../model";
import { isNumber, type ColouredSeries } from "./values";
import { bottomOf, frame, grid, leftOf, numberRoom, numbersOf, rightMargin, type Plot } from "./frame";
import { chartLine } from "./legend";
import { chartMark } from "./marks";
import { chartScale, letterSize } from "./scale";
import { cellText } from "../cell-text";

type Pair = readonly [across: number, value: number];

/** What each row of a series gives: a pair of numbers, undefined where a line passes over it, "gap" where the line ends. As the program does: an error value is passed over, a blank is a gap. */
function pairsOf({ first, second }: Chart, { categories, values }: ColouredSeries): (Pair | "gap" | undefined)[] {
  return values.map((value, index) => {
    const across = categories.length === 0 ? index + 1 : categories[index];
    if (value instanceof ErrorValue || across instanceof ErrorValue) return undefined;
    if (!isNumber(value) || !isNumber(across)) return "gap";
    const isPlaced = (!first.isLogarithmic || across > 0) && (!second.isLogarithmic || value > 0);
    return isPlaced ? [across, value] : "gap";
  });
}

/** Pairs that a line joins, piece by piece. */
function piecesOf(pairs: readonly (Pair | "gap" | undefined)[]): Pair[][] {
  const pieces: Pair[][] = [[]];
  for (const pair of pairs) {
    if (pair === "gap") pieces.push([]);
    else if (pair) pieces.at(-1)!.push(pair);
  }
  return pieces.filter((piece) => piece.length > 0);
}

/** Points over numbers, joined or not; undefined where none can be placed. */
export function pointsOf(
  chart: Chart,
  drawn: readonly ColouredSeries[],
  area: Plot,
  date1904: boolean,
): string | undefined {
  const { first, second } = chart;
  const all = drawn.map((one) => ({ one, pieces: piecesOf(pairsOf(chart, one)) }));
  const placed = all.flatMap(({ pieces }) => pieces.flat());
  if (placed.length === 0) return undefined;
  const [top, bottom] = [area.top + 10, bottomOf(area, first)];
  const values = placed.map(([, value]) => value);
  const up = chartScale(second, values, date1904, { start: bottom, end: top, numbers: "beside" }, false);
  if (!up) return undefined;
  const beside = numbersOf(up, second);
  const left = leftOf(area, second, beside, numberRoom);
  const plot: Plot = { left, right: area.right - rightMargin, top, bottom };
  const across = placed.map(([value]) => value);
  const along = chartScale(first, across, date1904, { start: left, end: plot.right, numbers: "below" }, false);
  if (!along) return undefined;
  const below = numbersOf(along, first);
  const [lines, marks, labels]: [string[], string[], string[]] = [[], [], []];
  for (const { one, pieces } of all) {
    const { line, mark, labels: wanted } = one.series;
    const at = ([across, value]: Pair) => [along.place(across), up.place(value)] as const;
    if (line) for (const piece of pieces) lines.push(chartLine(piece.map(at), line, one.colour));
    for (const pair of pieces.flat()) {
      const [x, y] = at(pair);
      if (x < left - 1 || x > plot.right + 1 || y < top - 1 || y > bottom + 1) continue;
      if (mark) marks.push(chartMark(mark, x, y, one.colour));
      if (!wanted) continue;
      const text = wanted.shows === "name" ? one.name : cellText(pair[1], wanted.format, date1904);
      labels.push(label(x, y, wanted.place, text));
    }
  }
  const clipped = element(
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
    first.hasGrid ? grid(plot, along, true) : "",
    second.hasGrid ? grid(plot, up, false) : "",
    frame(plot, beside, below, { beside: second.title, below: first.title }, { beside: numberRoom, below: numberRoom }),
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
      return textAt(x - 7, middle, text, { ...look, anchor: "end" });
    case "t":
      return textAt(x, y - 7, text, { ...look, anchor: "middle" });
    case "b":
      return textAt(x, y + 7 + 0.8 * letterSize, text, { ...look, anchor: "middle" });
    case "ctr":
      return textAt(x, middle, text, { ...look, anchor: "middle" });
    default:
      return textAt(x + 7, middle, text, look);
  }
}
