import type { Chart } from "../../file/looks/charts";
import { element } from "../../graph/svg";
import { palette } from "../../palette";
import { barsOf } from "./bars";
import { chartLegend } from "./legend";
import { pointsOf } from "./points";
import { drawnSeries, isNumber, type DrawnSeries } from "./values";
import type { SheetView } from "../sheet-view";

/** Pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** For series whose colour the file leaves to the theme or the program. */
const ownColours = [palette.petrol, palette.copper, palette.petrolMid, palette.inputEdge, palette.open, palette.grey];

/** Of a line, a bar or a mark, whichever the file gives a colour first. */
function colourOf({ series }: DrawnSeries, index: number): string {
  const { mark, line, fill } = series;
  return `#${mark?.colour ?? line?.colour ?? fill ?? ownColours[index % ownColours.length] ?? palette.ink}`;
}

/** A smaller frame has no room for numbers and words, pixels. */
const smallest: Size = { width: 160, height: 100 };

/** A chart drawn from what its cells hold now, plainer than the program's; undefined where it cannot be drawn, is too small or holds no number. */
export function chartSvg(
  chart: Chart,
  views: readonly SheetView[],
  { width, height }: Size,
  words: string,
): string | undefined {
  if (width < smallest.width || height < smallest.height) return undefined;
  const found = drawnSeries(chart, views);
  if (!found || !found.some(({ values }) => values.some(isNumber))) return undefined;
  const drawn = found.map((one, index) => ({ ...one, colour: colourOf(one, index) }));
  const isBars = chart.kind !== "points";
  const legend = chart.hasLegend ? chartLegend(drawn, isBars, width) : { svg: "", height: 0 };
  const area = { left: 0, right: width, top: legend.height, bottom: height };
  const date1904 = views[0]?.date1904 ?? false;
  const content = isBars ? barsOf(chart, drawn, area, date1904) : pointsOf(chart, drawn, area, date1904);
  if (content === undefined) return undefined;
  const label = words === "" ? "Chart" : words;
  return element("svg", { viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": label }, legend.svg + content);
}
