import type { SheetChart } from "./hucre";
import { scatterFrame } from "./scatter-frame";
import { palette, typeface } from "./style";

type Series = SheetChart["series"][number];

/** A line without markers. */
export function lineSeries(
  name: string,
  x: string,
  y: string,
  colour: string,
  width: number,
  dash?: "dash" | "sysDot",
): Series {
  return {
    name,
    categories: x,
    values: y,
    color: colour,
    stroke: { width, ...(dash && { dash }) },
    marker: { symbol: "none" },
    smooth: false,
  };
}

/** Points without a line; the mend takes the line away. */
export function pointSeries(
  name: string,
  x: string,
  y: string,
  symbol: "circle" | "diamond" | "x",
  fill: string,
  edge: string,
  size: number,
): Series {
  return { name, categories: x, values: y, color: edge, marker: { symbol, size, fill, line: edge }, smooth: false };
}

/**
 * Invisible points that carry words or numbers: "50 Pa" beside a line, 20 and 50 along a logarithmic axis, where Excel itself labels powers
 * of ten only. To the left of its point the label is the value, elsewhere the series' name, since not every program shows x values as labels.
 */
export function tickSeries(name: string, x: string, y: string, position: "b" | "l" | "r", size: number): Series {
  return {
    name,
    categories: x,
    values: y,
    marker: { symbol: "none" },
    smooth: false,
    dataLabels: {
      ...(position === "l" ? { showValue: true } : { showSeriesName: true }),
      position,
      fontSize: size,
      fontColor: palette.ink,
      fontFamily: typeface,
      numberFormat: { formatCode: "0" },
    },
  };
}

interface Words {
  readonly xTitle: string;
  readonly yTitle: string;
  readonly alternative: string;
  readonly textSize: number;
}

/** A scatter chart on log–log paper: x from 10 to 100, y from 10 upwards as far as the values need. */
export function logLogChart(
  series: Series[],
  hidden: readonly number[],
  anchor: SheetChart["anchor"],
  words: Words,
): SheetChart {
  const axis = {
    gridlines: { major: true, minor: true },
    numberFormat: { formatCode: "0", sourceLinked: false },
    labelFontSize: words.textSize,
    labelColor: palette.ink,
    labelFontFamily: typeface,
    axisTitleFontSize: words.textSize + 0.5,
    axisTitleBold: false,
    axisTitleColor: palette.grey,
    axisTitleFontFamily: typeface,
    majorTickMark: "out",
    minorTickMark: "none",
    crosses: "min",
  } as const;
  return {
    ...scatterFrame(series, hidden, anchor, words),
    axes: {
      x: { ...axis, title: words.xTitle, scale: { min: 10, max: 100, logBase: 10 } },
      y: { ...axis, title: words.yTitle, axisTitleRotation: -90, scale: { min: 10, logBase: 10 } },
    },
  };
}
