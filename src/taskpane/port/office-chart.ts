import { palette, typeface } from "../../workbook/palette";
import type { SeriesLook } from "./port";

/** A series of a chart with the cells of its points. */
export interface PlacedSeries {
  readonly name: string;
  readonly look: SeriesLook;
  readonly pressures: Excel.Range;
  readonly flows: Excel.Range;
}

interface AxisEnds {
  readonly minimum: number;
  readonly maximum: number;
}

export interface ChartPlan {
  readonly title: string;
  readonly flowUnit: string;
  readonly series: readonly PlacedSeries[];
  readonly pressureEnds: AxisEnds;
  /** Left to Excel where the flows are not known yet. */
  readonly flowEnds?: AxisEnds;
  readonly from: Excel.Range | string;
  readonly to: Excel.Range | string;
}

/** Excel's marks and lines for those of the drawing: both tell the series apart without colour. */
const drawnAs = {
  circle: { mark: "Circle", line: "Continuous" },
  diamond: { mark: "Diamond", line: "Dash" },
  triangle: { mark: "Triangle", line: "Dot" },
  square: { mark: "Square", line: "DashDot" },
  kite: { mark: "Star", line: "DashDotDot" },
  flag: { mark: "Plus", line: "RoundDot" },
} as const;

const markSize = 8; // points
/** A limit is a short bar at its pressure. */
const barSize = 20; // points
const grey = `#${palette.grey}`;

/** A log–log chart that Excel can edit, from cells of the sheet; drawn with the next sync. */
export async function addChart(sheet: Excel.Worksheet, plan: ChartPlan): Promise<Excel.Chart> {
  const [first] = plan.series;
  if (!first) throw new RangeError("a chart needs at least one series");
  const chart = sheet.charts.add("XYScatter", first.flows, "Columns");
  chart.series.load("items");
  await sheet.context.sync();
  // What Excel makes of the cells by itself.
  for (const one of chart.series.items) one.delete();
  for (const one of plan.series) addSeries(chart, one);
  chart.title.text = plan.title;
  chart.title.format.font.size = 12;
  chart.title.format.font.color = `#${palette.petrol}`;
  chart.format.font.name = typeface;
  chart.legend.position = "Bottom";
  const { categoryAxis, valueAxis } = chart.axes;
  dressAxis(categoryAxis, "Induced pressure difference, Pa", plan.pressureEnds);
  dressAxis(valueAxis, `Air flow through the envelope, ${plan.flowUnit}`, plan.flowEnds);
  chart.setPosition(plan.from, plan.to);
  return chart;
}

function addSeries(chart: Excel.Chart, { name, look, pressures, flows }: PlacedSeries): void {
  const added = chart.series.add(name);
  added.setXAxisValues(pressures);
  added.setValues(flows);
  const { kind, colour, marker } = look;
  const { line } = added.format;
  if (kind === "line") {
    added.markerStyle = "None";
    line.color = colour;
    line.weight = 1.75;
    line.lineStyle = drawnAs[marker].line;
    return;
  }
  line.lineStyle = "None";
  added.markerForegroundColor = colour;
  added.markerBackgroundColor = kind === "unused" ? `#${palette.white}` : colour;
  added.markerSize = kind === "limit" ? barSize : markSize;
  added.markerStyle = kind === "limit" ? "Dash" : kind === "unused" ? "X" : drawnAs[marker].mark;
  if (kind !== "limit") return;
  added.hasDataLabels = true;
  added.dataLabels.showSeriesName = true;
  added.dataLabels.showValue = false;
  added.dataLabels.position = look.labelled ?? "Left";
  added.dataLabels.format.font.color = colour;
}

function dressAxis(axis: Excel.ChartAxis, title: string, ends: AxisEnds | undefined): void {
  axis.scaleType = "Logarithmic";
  axis.logBase = 10;
  if (ends) {
    axis.minimum = ends.minimum;
    axis.maximum = ends.maximum;
  }
  axis.title.text = title;
  axis.title.format.font.color = grey;
  axis.majorGridlines.visible = true;
  axis.majorGridlines.format.line.color = `#${palette.rule}`;
  axis.minorGridlines.visible = true;
  axis.minorGridlines.format.line.color = `#${palette.hair}`;
}

/** Where a decade may begin so that both its ends are round. */
const beginnings = [1, 2, 3, 4, 5];

/** Ends of a logarithmic axis: the decade around all values that has them best in its middle; whole powers of ten where one decade does not hold them. */
export function findAxisEnds(values: readonly number[], begins: readonly number[] = beginnings): AxisEnds {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const power = Math.floor(Math.log10(least));
  const decades = [power - 1, power]
    .flatMap((one) => begins.map((begin) => begin * 10 ** one))
    .filter((minimum) => minimum <= least && most <= 10 * minimum);
  const offMiddle = (minimum: number) => Math.abs(Math.log10((least * most) / (10 * minimum ** 2)));
  const best = decades.sort((one, other) => offMiddle(one) - offMiddle(other))[0];
  return best === undefined
    ? { minimum: 10 ** power, maximum: 10 ** Math.ceil(Math.log10(most)) }
    : { minimum: best, maximum: 10 * best };
}

/**
 * Gives a chart an alternative text where Excel counts charts among its shapes: Office.js has no such property for charts themselves. Where it does not, the
 * chart stays as it is.
 */
export async function describeChart(sheetName: string, chartName: string, description: string): Promise<void> {
  try {
    await Excel.run(async (context) => {
      const { shapes } = context.workbook.worksheets.getItem(sheetName);
      shapes.load("items/name");
      await context.sync();
      const shape = shapes.items.find(({ name }) => name === chartName);
      if (!shape) return;
      shape.altTextDescription = description;
      await context.sync();
    });
  } catch {
    // The description is in the sheet too.
  }
}
