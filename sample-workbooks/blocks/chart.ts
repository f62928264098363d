import type { SheetChart } from "./hucre";
import { palette, typeface } from "./style";

type ChartSeries = SheetChart["series"][number];

/** A line without markers. */
export function lineSeries(
  name: string,
  x: string,
  y: string,
  colour: string,
  width: number,
  dash?: "dash" | "sysDot",
): ChartSeries {
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
): ChartSeries {
  return { name, categories: x, values: y, color: edge, marker: { symbol, size, fill, line: edge }, smooth: false };
}

/**
 * Invisible points that carry words or numbers: "50 Pa" beside a line, 20 and 50 along a logarithmic axis, where Excel itself labels powers
 * of ten only. The label is the series' name, since not every program shows x values as labels.
 */
export function tickSeries(name: string, x: string, y: string, position: "b" | "l" | "r", size: number): ChartSeries {
  return {
    name,
    categories: x,
    values: y,
    marker: { symbol: "none" },
    smooth: false,
    dataLabels: {
      showSeriesName: true,
      position,
      fontSize: size,
      fontColor: palette.ink,
      fontFamily: typeface,
    },
  };
}

interface LogLogWords {
  readonly xTitle: string;
  readonly yTitle: string;
  readonly alternative: string;
  readonly textSize: number;
}

/** A series' name that a cell holds; book.ts makes a reference of it. */
export const nameAt = (cell: string) => `=${cell}`;

/** A scatter chart on log–log paper: x from 10 to 100; the heights of the points are scaled already, from 0 to 1, and labelled points carry the numbers. */
export function logLogChart(
  series: ChartSeries[],
  hidden: readonly number[],
  anchor: SheetChart["anchor"],
  words: LogLogWords,
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
      y: {
        ...axis,
        title: words.yTitle,
        axisTitleRotation: -90,
        gridlines: { major: false },
        // Blanks keep room for the labelled points between the axis and its title.
        numberFormat: { formatCode: '"          "', sourceLinked: false },
        majorTickMark: "none",
        scale: { min: 0, max: 1 },
      },
    },
  };
}

interface Axis {
  readonly title: string;
  readonly min?: number;
  readonly max?: number;
  readonly step?: number;
  /** False hides the numbers where labelled points stand in for them. */
  readonly numbered?: boolean;
  readonly gridlines: boolean;
  readonly format?: string;
}

interface LinearWords {
  readonly x: Axis;
  readonly y: Axis;
  readonly alternative: string;
  readonly textSize: number;
}

/** A scatter chart with plain axes; `hidden` are the places of series that the legend leaves out. */
export function linearChart(
  series: SheetChart["series"],
  hidden: readonly number[],
  anchor: SheetChart["anchor"],
  words: LinearWords,
): SheetChart {
  const axis = ({ title, min, max, step, numbered = true, gridlines, format = "0" }: Axis) => ({
    ...(title !== "" && {
      title,
      axisTitleFontSize: words.textSize,
      axisTitleBold: false,
      axisTitleColor: palette.grey,
      axisTitleFontFamily: typeface,
    }),
    ...(gridlines && { gridlines: { major: true } }),
    numberFormat: { formatCode: format, sourceLinked: false },
    labelFontSize: words.textSize,
    labelColor: palette.ink,
    labelFontFamily: typeface,
    majorTickMark: "none" as const,
    minorTickMark: "none" as const,
    ...(!numbered && { tickLblPos: "none" as const }),
    crosses: "min" as const,
    scale: {
      ...(min !== undefined && { min }),
      ...(max !== undefined && { max }),
      ...(step !== undefined && { majorUnit: step }),
    },
  });
  return {
    ...scatterFrame(series, hidden, anchor, words),
    axes: { x: axis(words.x), y: { ...axis(words.y), axisTitleRotation: -90 } },
  };
}

interface Bars {
  readonly name: string;
  /** The range of the lengths. */
  readonly values: string;
  readonly colour: string;
}

interface BarWords {
  readonly axisTitle: string;
  /** What the names are, where they do not say it themselves. */
  readonly namesTitle?: string;
  readonly alternative: string;
  readonly textSize: number;
  /** Number format of the values. */
  readonly format: string;
  /** Values may lie below zero; the names then stand at the edge. */
  readonly signed?: true;
  /** The bars of a name lie in one line, where they point to opposite sides. */
  readonly overlaid?: true;
}

/**
 * Bars side by side over a list of names. Lying bars leave room for long names, the first one on top; upright ones suit numbers in a row.
 */
export function barChart(
  direction: "lying" | "upright",
  names: string,
  bars: readonly Bars[],
  anchor: SheetChart["anchor"],
  words: BarWords,
): SheetChart {
  const titled = (title: string) => ({
    title,
    axisTitleFontSize: words.textSize,
    axisTitleBold: false,
    axisTitleColor: palette.grey,
    axisTitleFontFamily: typeface,
  });
  const text = { labelFontSize: words.textSize, labelColor: palette.ink, labelFontFamily: typeface } as const;
  return {
    type: direction === "lying" ? "bar" : "column",
    barGrouping: "clustered",
    gapWidth: 60,
    overlap: words.overlaid ? 100 : 0,
    series: bars.map(({ name, values, colour }) => ({ name, values, categories: names, color: colour })),
    anchor,
    showTitle: false,
    autoTitleDeleted: true,
    altText: words.alternative,
    legend: "top",
    legendFontSize: words.textSize,
    legendFontFamily: typeface,
    legendFontColor: palette.ink,
    roundedCorners: false,
    chartSpaceFillColor: palette.white,
    chartSpaceBorderColor: palette.white,
    plotAreaFillColor: palette.white,
    axes: {
      x: {
        ...text,
        ...(words.namesTitle !== undefined && titled(words.namesTitle)),
        majorTickMark: "none",
        minorTickMark: "none",
        ...(direction === "lying" && { reverse: true }),
        ...(words.signed && { tickLblPos: "low" as const }),
      },
      y: {
        ...text,
        ...titled(words.axisTitle),
        ...(direction === "upright" && { axisTitleRotation: -90 }),
        gridlines: { major: true },
        numberFormat: { formatCode: words.format, sourceLinked: false },
        majorTickMark: "none",
        minorTickMark: "none",
        // With the names reversed, the axis of values would jump to the top.
        ...(direction === "lying" && { crosses: "max" as const }),
        ...(!words.signed && { scale: { min: 0 } }),
      },
    },
  };
}

/** What every scatter chart of ours has in common: legend above, white ground, gaps where there is no value; `hidden` series are not in the legend. */
function scatterFrame(
  series: SheetChart["series"],
  hidden: readonly number[],
  anchor: SheetChart["anchor"],
  words: { readonly alternative: string; readonly textSize: number },
): SheetChart {
  return {
    type: "scatter",
    scatterStyle: "lineMarker",
    series,
    anchor,
    showTitle: false,
    autoTitleDeleted: true,
    altText: words.alternative,
    legend: "top",
    legendFontSize: words.textSize,
    legendFontFamily: typeface,
    legendFontColor: palette.ink,
    legendEntries: hidden.map((idx) => ({ idx, delete: true })),
    dispBlanksAs: "gap",
    roundedCorners: false,
    chartSpaceFillColor: palette.white,
    chartSpaceBorderColor: palette.white,
    plotAreaFillColor: palette.white,
    plotAreaBorderColor: palette.petrolMid,
  };
}
