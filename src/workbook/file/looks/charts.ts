/** How the points of a series are marked; colours are RRGGBB, undefined for one that the theme or the program chooses. */
export interface ChartMark {
  /** "circle", "diamond", …, "auto" (ECMA-376 part 1, 21.2.3.27). */
  readonly symbol: string;
  /** Points. */
  readonly size: number;
  readonly colour: string | undefined;
}

export interface ChartLine {
  readonly colour: string | undefined;
  /** Points. */
  readonly width: number;
  readonly isDashed: boolean;
}

/** What is written at the points of a series. */
export interface ChartLabels {
  readonly shows: "name" | "value";
  readonly format: string;
  /** "r", "t", "l", "b", "ctr" (21.2.3.10). */
  readonly place: string;
}

/** One series; `nameAt`, `categories` and `values` are references as formulas have them, "" where there is none. */
export interface ChartSeries {
  readonly name: string;
  readonly nameAt: string;
  readonly categories: string;
  readonly values: string;
  readonly fill: string | undefined;
  /** Undefined where points are not joined, or not marked. */
  readonly line: ChartLine | undefined;
  readonly mark: ChartMark | undefined;
  readonly labels: ChartLabels | undefined;
  /** Not named in the legend. */
  readonly isUnnamed: boolean;
}

export interface ChartAxis {
  readonly low: number | undefined;
  readonly high: number | undefined;
  readonly isLogarithmic: boolean;
  readonly isReversed: boolean;
  /** Nothing is written beside it. */
  readonly isHidden: boolean;
  readonly hasGrid: boolean;
  readonly title: string;
  readonly format: string;
}

/** A chart of one of the kinds that can be drawn: points over numbers, or bars that stand or lie side by side. */
export interface Chart {
  readonly kind: "points" | "columns" | "bars";
  readonly series: readonly ChartSeries[];
  /** Of the categories, or of the numbers along the bottom. */
  readonly first: ChartAxis;
  readonly second: ChartAxis;
  readonly hasLegend: boolean;
  /** Cells in hidden rows and columns are left out. */
  readonly visibleOnly: boolean;
}
