import type { Drawing } from "../file/appearance/drawings";
import type { Area } from "../model";
import { drawChart, type Size } from "./chart/drawing";
import type { SheetView } from "./sheet-view";

/** Characters of the standard font are taken as seven pixels wide, plus five pixels of padding per column. */
export function toPixels(characters: number): number {
  return 7 * characters + 5;
}

/** A drawing over blank cells only, which the chart or a description can replace. */
export interface Frame {
  readonly drawing: Drawing;
  readonly area: Area;
}

/** What replaces a drawing: the chart as HTML, or just a description. */
export interface Shown {
  readonly drawing: Drawing;
  readonly chart: string | undefined;
}

/** The drawings of a sheet with what is shown for each. */
export function prepareDrawings(view: SheetView, views: readonly SheetView[]): (Shown & Frame)[] {
  return selectFreeDrawings(view).map(({ drawing, area }) => {
    const { chart, words } = drawing;
    return { drawing, area, chart: chart && drawChart(chart, views, measureArea(view, area), words) };
  });
}

/** The height in points of a row without one. */
const usualHeight = 15;

function measureArea({ looks, extent }: SheetView, { top, left, bottom, right }: Area): Size {
  const sum = (places: readonly number[], first: number, last: number, size: (place: number) => number) =>
    places.reduce((total, place) => total + (place >= first && place <= last ? size(place) : 0), 0);
  return {
    width: sum(extent.columns, left, right, (column) => toPixels(looks.widths.get(column) ?? looks.defaultWidth)),
    height: sum(extent.rows, top, bottom, (row) => ((looks.heights.get(row) ?? usualHeight) * 4) / 3),
  };
}

/** The drawings of a sheet that cover no text, input cells, merged cells or other drawings. */
function selectFreeDrawings(view: SheetView): Frame[] {
  const frames: Frame[] = [];
  for (const drawing of view.looks.drawings) {
    const { area } = drawing;
    if (!area || !isFree(view, area) || frames.some((one) => meet(one.area, area))) continue;
    frames.push({ drawing, area });
  }
  return frames;
}

/** The description of a drawing that a page does not show. */
export function describeDrawing({ kind, words }: Drawing): string {
  const name = `${kind.charAt(0).toUpperCase()}${kind.slice(1)}, not shown`;
  return words === "" ? `${name}.` : `${name}: ${words}`;
}

function isFree(view: SheetView, area: Area): boolean {
  const { extent, sheet } = view;
  if (sheet.mergedAreas.some((merged) => meet(merged, area))) return false;
  const createRangeTest = (first: number, last: number) => (place: number) => place >= first && place <= last;
  const [rows, columns] = [
    extent.rows.filter(createRangeTest(area.top, area.bottom)),
    extent.columns.filter(createRangeTest(area.left, area.right)),
  ];
  return rows.every((row) =>
    columns.every((column) => {
      const there = view.cell(row, column);
      return !there || (!there.isInput && (there.value === null || there.value === ""));
    }),
  );
}

function meet(one: Area, other: Area): boolean {
  return one.top <= other.bottom && other.top <= one.bottom && one.left <= other.right && other.left <= one.right;
}
