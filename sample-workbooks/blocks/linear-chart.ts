import type { SheetChart } from "./hucre";
import { scatterFrame } from "./scatter-frame";
import { palette, typeface } from "./style";

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

interface Words {
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
  words: Words,
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
