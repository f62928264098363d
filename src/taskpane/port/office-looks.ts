import { type CellLook, cellLooks } from "../../workbook/looks";
import { addChart, findAxisEnds } from "./office-chart";
import type { AreaLook, BlockArea, BlockChart, BlockLooks } from "./port";

interface Place {
  readonly row: number;
  readonly column: number;
}

/** Cells of a block on its sheet. */
const findArea = (sheet: Excel.Worksheet, { row, column }: Place, area: BlockArea): Excel.Range =>
  sheet.getRangeByIndexes(row + area.row, column + area.column, area.rows, area.columns);

/** What is in the columns of a block before it is written, and where its chart will be; read with the next sync. */
export function readSurroundings(sheet: Excel.Worksheet, place: Place, { widths, chart }: BlockLooks) {
  const columns = widths.map((wanted) => {
    const whole = sheet.getRangeByIndexes(place.row, place.column + wanted.column, 1, 1).getEntireColumn();
    const used = whole.getUsedRangeOrNullObject(false);
    used.load("address");
    whole.load("format/columnWidth");
    return { ...wanted, whole, used };
  });
  const room = chart && findArea(sheet, place, chart.area);
  room?.load("left,top,width,height");
  const drawings = room ? [sheet.charts, sheet.shapes] : [];
  for (const drawing of drawings) drawing.load("items/name,items/left,items/top,items/width,items/height");
  return {
    /** The first chart or shape that the chart would cover. */
    findCovered: (): string | undefined => {
      const all = drawings.flatMap(({ items }): readonly (Box & { readonly name: string })[] => items);
      return room && all.find((one) => isOverlapping(room, one))?.name;
    },
    /** The columns that hold nothing at all, and are narrower than the block wants them. */
    listFree: () => columns.filter(({ whole, used, points }) => used.isNullObject && whole.format.columnWidth < points),
  };
}

type Box = Pick<Excel.Chart, "left" | "top" | "width" | "height">;

const isOverlapping = (one: Box, other: Box): boolean =>
  one.left < other.left + other.width &&
  other.left < one.left + one.width &&
  one.top < other.top + other.height &&
  other.top < one.top + one.height;

/** Gives a block its looks and its chart, with the next sync; the chart, if there is one. */
export async function dressBlock(
  sheet: Excel.Worksheet,
  place: Place,
  { areas, chart }: BlockLooks,
  rows: number,
  free: ReturnType<ReturnType<typeof readSurroundings>["listFree"]>,
): Promise<Excel.Chart | undefined> {
  for (const area of areas) dressArea(findArea(sheet, place, area), area);
  for (const { column, whole, points, shrinks } of free) {
    whole.format.columnWidth = points;
    if (shrinks) findArea(sheet, place, { row: 0, column, rows, columns: 1 }).format.shrinkToFit = true;
  }
  return chart && drawChart(sheet, place, chart);
}

function dressArea(range: Excel.Range, { look, format: numbers, rows, columns }: AreaLook): void {
  const { bold, colour, fill, bottom, edge, align, indent }: CellLook = cellLooks[look];
  const { format } = range;
  if (bold) format.font.bold = true;
  if (colour !== undefined) format.font.color = `#${colour}`;
  if (fill !== undefined) format.fill.color = `#${fill}`;
  if (align !== undefined) format.horizontalAlignment = align === "left" ? "Left" : "Right";
  if (indent !== undefined) format.indentLevel = indent;
  const line = edge ?? bottom;
  const between = [...(rows > 1 ? (["InsideHorizontal"] as const) : [])];
  const around = ["EdgeTop", "EdgeLeft", "EdgeRight", ...(columns > 1 ? (["InsideVertical"] as const) : [])] as const;
  for (const side of line === undefined ? [] : [...between, "EdgeBottom" as const, ...(edge ? around : [])]) {
    const border = format.borders.getItem(side);
    border.style = "Continuous";
    border.color = `#${line}`;
  }
  if (numbers === undefined) return;
  const ofRow = (row: number): string => (typeof numbers === "string" ? numbers : (numbers[row] ?? "General"));
  range.numberFormat = Array.from({ length: rows }, (_, row) => Array<string>(columns).fill(ofRow(row)));
}

const drawChart = (sheet: Excel.Worksheet, place: Place, { title, flowUnit, series, area }: BlockChart) =>
  addChart(sheet, {
    title,
    flowUnit,
    series: series.map(({ name, pressures, flows, ...look }) => ({
      name,
      look,
      pressures: findArea(sheet, place, pressures),
      flows: findArea(sheet, place, flows),
    })),
    // A fan pressurization test lies within this decade.
    pressureEnds: findAxisEnds([10, 100], [1]),
    from: findArea(sheet, place, { ...area, rows: 1, columns: 1 }),
    to: sheet.getCell(place.row + area.row + area.rows - 1, place.column + area.column + area.columns - 1),
  });
