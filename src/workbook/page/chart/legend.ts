import type { ChartMark } from "../../file/appearance/charts";
import { writeElement, writePath } from "../../graph/svg";
import { fitText, drawText, measureText } from "../../graph/text";
import { letterSize } from "./frame";
import type { ColouredSeries } from "./series";

const [signWidth, gap, rowHeight] = [24, 16, 17];

/** A legend in rows above the plot, and its height. */
export function drawLegend(
  drawn: readonly ColouredSeries[],
  isBars: boolean,
  width: number,
): { readonly svg: string; readonly height: number } {
  const parts: string[] = [];
  let [x, row] = [gap, 0];
  for (const { series, name, colour } of drawn) {
    if (series.isUnnamed || name === "") continue;
    const text = fitText(name, width - signWidth - 2 * gap, letterSize);
    const needed = signWidth + measureText(text, letterSize) + gap;
    if (x > gap && x + needed > width) [x, row] = [gap, row + 1];
    const y = row * rowHeight + rowHeight / 2 + 2;
    if (isBars) parts.push(writeElement("rect", { x, y: y - 5, width: 14, height: 10, fill: colour }));
    else {
      if (series.line)
        parts.push(
          drawLine(
            [
              [x, y],
              [x + 18, y],
            ],
            series.line,
            colour,
          ),
        );
      if (series.mark) parts.push(drawMark({ ...series.mark, size: Math.min(series.mark.size, 7) }, x + 9, y, colour));
    }
    parts.push(drawText(x + signWidth, y + 0.36 * letterSize, text, { size: letterSize }));
    x += needed;
  }
  return { svg: parts.join(""), height: parts.length === 0 ? 0 : (row + 1) * rowHeight + 6 };
}

/** A line through points. */
export function drawLine(
  points: readonly (readonly [x: number, y: number])[],
  { width, isDashed }: { readonly width: number; readonly isDashed: boolean },
  colour: string,
): string {
  return writeElement("polyline", {
    points: points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" "),
    fill: "none",
    stroke: colour,
    "stroke-width": (width * 4) / 3,
    "stroke-dasharray": isDashed ? "5 4" : undefined,
    "stroke-linejoin": "round",
  });
}

/** Corners of the polygonal marks, extending 1 to each side. */
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

/** A mark at a point; unknown symbols become circles. */
export function drawMark({ symbol, size }: ChartMark, x: number, y: number, colour: string): string {
  // A point is four thirds of a pixel, and a size is the full width.
  const reach = (size * 4) / 3 / 2;
  const corners = outlines.get(symbol);
  if (corners) {
    const points = corners.map(([across, down]) => [x + reach * across, y + reach * down] as const);
    return writeElement("path", { d: writePath(points, true), fill: colour });
  }
  const lines = strokes.get(symbol);
  if (!lines) return writeElement("circle", { cx: x, cy: y, r: reach, fill: colour });
  return lines
    .map(([x1, y1, x2, y2]) =>
      writeElement("line", {
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
