import type { ChartMark } from "../../file/looks/charts";
import { element, pathOf } from "../../graph/svg";

/** Corners of what is not round, for a mark that reaches 1 to each side. */
const outlines: ReadonlyMap<string, readonly (readonly [x: number, y: number])[]> = new Map(
  Object.entries({
    diamond: [
      [0, -1.2],
      [1.2, 0],
      [0, 1.2],
      [-1.2, 0],
    ],
    square: [
      [-0.9, -0.9],
      [0.9, -0.9],
      [0.9, 0.9],
      [-0.9, 0.9],
    ],
    triangle: [
      [0, -1],
      [1, 0.8],
      [-1, 0.8],
    ],
  } satisfies Record<string, readonly (readonly [x: number, y: number])[]>),
);

const strokes: ReadonlyMap<string, readonly (readonly [x1: number, y1: number, x2: number, y2: number])[]> = new Map(
  Object.entries({
    x: [
      [-1, -1, 1, 1],
      [-1, 1, 1, -1],
    ],
    plus: [
      [-1, 0, 1, 0],
      [0, -1, 0, 1],
    ],
    star: [
      [-1, -1, 1, 1],
      [-1, 1, 1, -1],
      [0, -1, 0, 1],
    ],
    dash: [[-1, 0, 1, 0]],
  } satisfies Record<string, readonly (readonly [x1: number, y1: number, x2: number, y2: number])[]>),
);

/** A mark at a point; symbols that are not known here are circles. */
export function chartMark({ symbol, size }: ChartMark, x: number, y: number, colour: string): string {
  // Points are four thirds of a pixel, and a size counts from side to side.
  const reach = (size * 4) / 3 / 2;
  const corners = outlines.get(symbol);
  if (corners) {
    const points = corners.map(([across, down]) => [x + reach * across, y + reach * down] as const);
    return element("path", { d: pathOf(points, true), fill: colour });
  }
  const lines = strokes.get(symbol);
  if (!lines) return element("circle", { cx: x, cy: y, r: reach, fill: colour });
  return lines
    .map(([x1, y1, x2, y2]) =>
      element("line", {
        x1: x + reach * x1,
        y1: y + reach * y1,
        x2: x + reach * x2,
        y2: y + reach * y2,
        stroke: colour,
        "stroke-width": 1.6,
      }),
    )
    .join("");
}
