import type { SheetChart } from "./hucre";
import { palette, typeface } from "./style";

/** What every scatter chart of ours has in common: legend above, white ground, gaps where there is no value; `hidden` series are not in the legend. */
export function scatterFrame(
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
