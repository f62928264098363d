import { element } from "../../graph/svg";
import { textAt } from "../../graph/text";
import { fitted, textWidth } from "../../graph/text-width";
import { chartMark } from "./marks";
import { letterSize } from "./scale";
import type { ColouredSeries } from "./values";

const [signWidth, gap, rowHeight] = [24, 16, 17];

/** A legend in rows above the plot, and how high it is. */
export function chartLegend(
  drawn: readonly ColouredSeries[],
  isBars: boolean,
  width: number,
): { readonly svg: string; readonly height: number } {
  const parts: string[] = [];
  let [x, row] = [gap, 0];
  for (const { series, name, colour } of drawn) {
    if (series.isUnnamed || name === "") continue;
    const text = fitted(name, width - signWidth - 2 * gap, letterSize);
    const needed = signWidth + textWidth(text, letterSize) + gap;
    if (x > gap && x + needed > width) [x, row] = [gap, row + 1];
    const y = row * rowHeight + rowHeight / 2 + 2;
    if (isBars) parts.push(element("rect", { x, y: y - 5, width: 14, height: 10, fill: colour }));
    else {
      if (series.line)
        parts.push(
          chartLine(
            [
              [x, y],
              [x + 18, y],
            ],
            series.line,
            colour,
          ),
        );
      if (series.mark) parts.push(chartMark({ ...series.mark, size: Math.min(series.mark.size, 7) }, x + 9, y, colour));
    }
    parts.push(textAt(x + signWidth, y + 0.36 * letterSize, text, { size: letterSize }));
    x += needed;
  }
  return { svg: parts.join(""), height: parts.length === 0 ? 0 : (row + 1) * rowHeight + 6 };
}

/** A line through points. */
export function chartLine(
  points: readonly (readonly [x: number, y: number])[],
  { width, isDashed }: { readonly width: number; readonly isDashed: boolean },
  colour: string,
): string {
  return element("polyline", {
    points: points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" "),
    fill: "none",
    stroke: colour,
    "stroke-width": (width * 4) / 3,
    "stroke-dasharray": isDashed ? "5 4" : undefined,
    "stroke-linejoin": "round",
  });
}
