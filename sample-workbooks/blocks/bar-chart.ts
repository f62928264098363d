import type { SheetChart } from "./hucre";
import { palette, typeface } from "./style";

interface Bars {
  readonly name: string;
  /** The range of the lengths. */
  readonly values: string;
  readonly colour: string;
}

interface Words {
  readonly axisTitle: string;
  /** What the names are, where they do not say it themselves. */
  readonly namesTitle?: string;
  readonly alternative: string;
  readonly textSize: number;
  /** Number format of the values. */
  readonly format: string;
  /** Values may lie below zero; the names then stand at the edge. */
  readonly signed?: true;
}

/**
 * Bars side by side over a list of names. Lying bars leave room for long names, the first one on top; upright ones suit numbers in a row.
 */
export function barChart(
  direction: "lying" | "upright",
  names: string,
  bars: readonly Bars[],
  anchor: SheetChart["anchor"],
  words: Words,
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
    overlap: 0,
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
