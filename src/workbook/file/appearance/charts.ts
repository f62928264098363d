import { parseArea } from "../../book/address";
import type { Area } from "../../model";
import type { Archive } from "../archive";
import { parseBoolean, type XmlPart, type XmlReader } from "../xml/xml";

/** How the points of a series are marked; colours are RRGGBB, undefined if left to the theme or the program. */
export interface ChartMark {
  /** "circle", "diamond", …, "auto" (ECMA-376 part 1, 21.2.3.27). */
  readonly symbol: string;
  /** Points. */
  readonly size: number;
  readonly colour: string | undefined;
}

interface ChartLine {
  readonly colour: string | undefined;
  /** Points. */
  readonly width: number;
  readonly isDashed: boolean;
}

/** The data labels of a series. */
export interface ChartLabels {
  readonly shows: "name" | "value";
  readonly format: string;
  /** "r", "t", "l", "b", "ctr" (21.2.3.10). */
  readonly place: string;
}

/** One series; `nameAt`, `categories` and `values` are references as in formulas, "" if there is none. */
export interface ChartSeries {
  readonly name: string;
  readonly nameAt: string;
  readonly categories: string;
  readonly values: string;
  readonly fill: string | undefined;
  /** Undefined if points are not joined, or not marked. */
  readonly line: ChartLine | undefined;
  readonly mark: ChartMark | undefined;
  readonly labels: ChartLabels | undefined;
  /** Not in the legend. */
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

/** A chart of a kind that can be drawn: XY points, or vertical or horizontal bars side by side. */
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

const reference = /^(?:'((?:[^']|'')+)'|([^'!:,()]+))!([$A-Z0-9:]+)$/i;

/** The cells that a chart refers to, the sheet's name in lower case; undefined if it is not one area of a sheet. */
export function parseChartReference(text: string): { readonly sheet: string; readonly area: Area } | undefined {
  const [, quoted, bare, cells = ""] = reference.exec(text) ?? [];
  const area = parseArea(cells);
  return area && { sheet: (quoted?.replaceAll("''", "'") ?? bare ?? "").toLowerCase(), area };
}

type Attributes = Record<string, string>;
type Writable<T> = { -readonly [Key in keyof T]: T[Key] };

interface SeriesDraft {
  series: Writable<Omit<ChartSeries, "line" | "mark" | "labels" | "isUnnamed">>;
  line: Writable<ChartLine>;
  hasLine: boolean;
  mark: Writable<ChartMark>;
  labels: { name: boolean; value: boolean; format: string; place: string };
}

const createSeriesDraft = (): SeriesDraft => ({
  series: { name: "", nameAt: "", categories: "", values: "", fill: undefined },
  line: { colour: undefined, width: 1.5, isDashed: false },
  hasLine: true,
  mark: { symbol: "auto", size: 5, colour: undefined },
  labels: { name: false, value: false, format: "General", place: "r" },
});

/** An axis, and whether it is at the bottom or top, or is the category axis. */
type AxisDraft = Writable<ChartAxis> & { isFirst: boolean };

const createAxisDraft = (name: string): AxisDraft => ({
  isFirst: name !== "valAx",
  low: undefined,
  high: undefined,
  isLogarithmic: false,
  isReversed: false,
  isHidden: false,
  hasGrid: false,
  title: "",
  format: "General",
});

/** English metric units in a point. */
const unitsInPoint = 12_700;

const axisNames = /^(cat|val|date|ser)Ax$/;

/** Streams a chart part (ECMA-376 part 1, 21.2). */
class ChartReader implements XmlReader {
  readonly plots: string[] = [];
  readonly series: SeriesDraft[] = [];
  readonly axes: AxisDraft[] = [];
  readonly unnamed = new Set<number>();
  direction = "col";
  grouping = "standard";
  hasLegend = false;
  visibleOnly = true;
  private readonly path: string[] = [];
  private entry = -1;
  private collected: string | undefined;

  open(name: string, attributes: Attributes, part: XmlPart): void {
    if (this.path.at(-1) === "plotArea" && name.endsWith("Chart")) this.plots.push(name);
    else if (name === "ser") this.series.push(createSeriesDraft());
    else if (axisNames.test(name) && this.path.at(-1) === "plotArea") this.axes.push(createAxisDraft(name));
    else if (name === "legend") this.hasLegend = true;
    else if (name === "plotVisOnly") this.visibleOnly = parseBoolean(attributes["val"], true);
    else if (name === "barDir") this.direction = attributes["val"] ?? "col";
    else if (name === "grouping") this.grouping = attributes["val"] ?? "standard";
    this.path.push(name);
    const [ser, axis] = [this.path.lastIndexOf("ser"), this.path.findIndex((one) => axisNames.test(one))];
    if (ser >= 0) this.openInSeries(this.path.slice(ser + 1).join("/"), attributes);
    else if (axis >= 0) this.openInAxis(this.path.slice(axis + 1).join("/"), attributes);
    else if (this.path.at(-2) === "legendEntry") this.openInEntry(name, attributes);
    if (name === "f" || name === "v" || name === "t") {
      this.collected = "";
      part.wantText();
    }
  }

  addText(text: string): void {
    if (this.collected !== undefined) this.collected += text;
  }

  close(name: string, part: XmlPart): void {
    if (this.collected !== undefined) {
      part.ignoreText();
      this.take(this.collected);
      this.collected = undefined;
    }
    this.path.pop();
    if (name === "legendEntry") this.entry = -1;
  }

  /** The text of the closing element. */
  private take(text: string): void {
    const path = this.path.join("/");
    const series = this.series.at(-1)?.series;
    if (/\/ser\//.test(path) && series) {
      if (/\/ser\/tx\/v$/.test(path)) series.name = text;
      else if (/\/ser\/tx\/strRef\/f$/.test(path)) series.nameAt = text;
      else if (/\/ser\/(cat|xVal)\/(num|str)Ref\/f$/.test(path)) series.categories = text;
      else if (/\/ser\/(val|yVal)\/numRef\/f$/.test(path)) series.values = text;
    } else if (/Ax\/title\/.*\/t$/.test(path)) {
      const axis = this.axes.at(-1);
      if (axis) axis.title += text;
    }
  }

  private openInSeries(path: string, attributes: Attributes): void {
    const draft = this.series.at(-1);
    if (!draft) return;
    const { series, line, mark, labels } = draft;
    const value = attributes["val"];
    const isOn = parseBoolean(value, true);
    switch (path) {
      case "spPr/solidFill/srgbClr":
        series.fill = value;
        break;
      case "spPr/ln":
        if (attributes["w"] !== undefined) line.width = Number(attributes["w"]) / unitsInPoint;
        break;
      case "spPr/ln/noFill":
        draft.hasLine = false;
        break;
      case "spPr/ln/solidFill/srgbClr":
        line.colour = value;
        break;
      case "spPr/ln/prstDash":
        line.isDashed = value !== "solid";
        break;
      case "marker/symbol":
        mark.symbol = value ?? "auto";
        break;
      case "marker/size":
        mark.size = Number(value ?? mark.size);
        break;
      case "marker/spPr/solidFill/srgbClr":
        mark.colour = value;
        break;
      case "dLbls/showSerName":
        labels.name = isOn;
        break;
      case "dLbls/showVal":
        labels.value = isOn;
        break;
      case "dLbls/numFmt":
        labels.format = attributes["formatCode"] ?? "General";
        break;
      case "dLbls/dLblPos":
        labels.place = value ?? "r";
        break;
    }
  }

  private openInAxis(path: string, attributes: Attributes): void {
    const axis = this.axes.at(-1);
    if (!axis) return;
    const value = attributes["val"];
    if (path === "scaling/logBase") axis.isLogarithmic = true;
    else if (path === "scaling/min") axis.low = Number(value);
    else if (path === "scaling/max") axis.high = Number(value);
    else if (path === "scaling/orientation") axis.isReversed = value === "maxMin";
    else if (path === "axPos" && this.plots[0] === "scatterChart") axis.isFirst = value === "b" || value === "t";
    else if (path === "delete") axis.isHidden ||= parseBoolean(value, true);
    else if (path === "tickLblPos") axis.isHidden ||= value === "none";
    else if (path === "majorGridlines") axis.hasGrid = true;
    else if (path === "numFmt") axis.format = attributes["formatCode"] ?? "General";
  }

  private openInEntry(name: string, attributes: Attributes): void {
    if (name === "idx") this.entry = Number(attributes["val"]);
    else if (name === "delete" && parseBoolean(attributes["val"], true)) this.unnamed.add(this.entry);
  }
}

/** A chart part; undefined for a kind that cannot be drawn faithfully: combined plots, stacked bars, a third axis, areas, pies. */
export function readChart(archive: Archive, partName: string): Chart | undefined {
  const reader = new ChartReader();
  archive.read(partName, reader);
  const [plot] = reader.plots;
  const [first, second] = [reader.axes.find(({ isFirst }) => isFirst), reader.axes.find(({ isFirst }) => !isFirst)];
  if (reader.plots.length !== 1 || reader.axes.length !== 2 || !first || !second) return undefined;
  if (plot !== "scatterChart" && !(plot === "barChart" && reader.grouping === "clustered")) return undefined;
  const isBars = plot === "barChart";
  return {
    kind: !isBars ? "points" : reader.direction === "bar" ? "bars" : "columns",
    series: reader.series.map(({ series, hasLine, line, mark, labels }, index): ChartSeries => ({
      ...series,
      line: hasLine && !isBars ? line : undefined,
      mark: mark.symbol === "none" || isBars ? undefined : mark,
      labels: labels.name || labels.value ? { ...labels, shows: labels.name ? "name" : "value" } : undefined,
      isUnnamed: reader.unnamed.has(index),
    })),
    first,
    second,
    hasLegend: reader.hasLegend,
    visibleOnly: reader.visibleOnly,
  };
}
