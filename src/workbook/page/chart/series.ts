import { sizeOf } from "../../book/area";
import { type Chart, type ChartSeries, parseChartReference } from "../../file/appearance/charts";
import type { Area, CellValue } from "../../model";
import { formatCellText } from "../cell-text";
import type { SheetView } from "../sheet-view";

/** A series with its cells' current values. */
export interface DrawnSeries {
  readonly series: ChartSeries;
  readonly name: string;
  readonly categories: readonly CellValue[];
  readonly values: readonly CellValue[];
}

/** A series with the colour in which it is drawn. */
export type ColouredSeries = DrawnSeries & { readonly colour: string };

export function isNumber(value: CellValue | undefined): value is number {
  return typeof value === "number";
}

/** More cells would not make the picture clearer. */
const mostCells = 50_000;

function findArea(text: string, views: readonly SheetView[]): { view: SheetView; area: Area } | undefined {
  const found = parseChartReference(text);
  const view = found && views.find(({ sheet }) => sheet.name.toLowerCase() === found.sheet);
  return view && { view, area: found.area };
}

/** The cells of a reference, row by row; undefined if it is not an area of a sheet, or is very large. */
function readCells(text: string, views: readonly SheetView[], visibleOnly: boolean): CellValue[] | undefined {
  if (text === "") return [];
  const found = findArea(text, views);
  if (!found) return undefined;
  const { view, area } = found;
  if (sizeOf(area) > mostCells) return undefined;
  const { hiddenRows, hiddenColumns } = view.sheet;
  const values: CellValue[] = [];
  for (let row = area.top; row <= area.bottom; row++) {
    for (let column = area.left; column <= area.right; column++) {
      if (visibleOnly && (hiddenRows.has(row) || hiddenColumns.has(column))) continue;
      values.push(view.cell(row, column)?.value ?? null);
    }
  }
  return values;
}

/** The current values of a chart's series; undefined if one cannot be read, or an XY chart has words as x values. */
export function readSeries(
  { kind, series, visibleOnly }: Chart,
  views: readonly SheetView[],
): DrawnSeries[] | undefined {
  const drawn: DrawnSeries[] = [];
  for (const one of series) {
    const categories = readCells(one.categories, views, visibleOnly);
    const values = readCells(one.values, views, visibleOnly);
    const named = readCells(one.nameAt, views, false);
    if (!categories || !values || !named || values.length === 0) return undefined;
    if (kind === "points" && categories.some((value) => typeof value === "string" && value !== "")) return undefined;
    drawn.push({
      series: one,
      name: named.length > 0 ? named.map((value) => formatCellText(value, "General", false)).join(" ") : one.name,
      categories,
      values,
    });
  }
  return drawn;
}
