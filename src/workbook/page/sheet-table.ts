import { escapeHtml, writeTag } from "../html";
import { WorkbookProblem } from "../file/problem";
import { formatColumn } from "../book/address";
import { type Frame, toPixels, type Shown } from "./drawing-frames";
import { writeCell } from "./sheet-cell";
import { collectMerges, type SheetView } from "./sheet-view";
import type { StyleSheet } from "./style-sheet";

/** The width of the row-number column, in characters. */
const numberWidth = 5;

/** A sheet as a table with column letters and row numbers, widths, heights, merged cells and styles. `isNamed` says which cells are linked from lists. */
export function writeSheetTable(
  view: SheetView,
  drawings: readonly (Shown & Frame)[],
  {
    styles,
    length,
    isNamed,
  }: { readonly styles: StyleSheet; readonly length: PageLength; readonly isNamed: (id: string) => boolean },
): string {
  const { sheet, looks, extent } = view;
  const merges = collectMerges([...sheet.mergedAreas, ...drawings.map(({ area }) => area)], extent);
  const drawingAt = new Map(drawings.map((shown) => [`${shown.area.top} ${shown.area.left}`, shown]));
  const parts = { view, styles, merges, drawingAt, isNamed };
  const readWidth = (column: number) => looks.widths.get(column) ?? looks.defaultWidth;
  const columns = [numberWidth, ...extent.columns.map(readWidth)];
  const pixels = measureTable(view);
  const head = [
    writeTag("td", { class: "corner" }),
    ...extent.columns.map((column) => writeTag("th", { scope: "col" }, formatColumn(column))),
  ];
  const rows = extent.rows.map((row) => {
    const height = looks.heights.get(row);
    const cells = extent.columns.map((column, place) => length.countLength(writeCell(parts, row, column, place)));
    return writeTag(
      "tr",
      { class: height === undefined ? undefined : styles.registerHeight(height) },
      writeTag("th", { scope: "row" }, String(row + 1)) + cells.join(""),
    );
  });
  const last = `${formatColumn(extent.columns.at(-1) ?? 0)}${(extent.rows.at(-1) ?? 0) + 1}`;
  return writeTag(
    "table",
    { class: `sheet ${styles.registerTableWidth(pixels)} ${printScale(pixels)}${looks.showsGrid ? " grid" : ""}` },
    [
      writeTag("caption", {}, `Sheet ${escapeHtml(sheet.name)}, cells A1 to ${last}`),
      writeTag(
        "colgroup",
        {},
        columns.map((width) => writeTag("col", { class: styles.registerWidth(width) })).join(""),
      ),
      writeTag("thead", {}, writeTag("tr", {}, head.join(""))),
      writeTag("tbody", {}, rows.join("\n")),
    ].join("\n"),
  );
}

/** Whether a table is too wide for a portrait page. */
export function isWide(view: SheetView): boolean {
  return measureTable(view) > 1000;
}

/** Within its margins an A4 page holds about 700 pixels of 1/96 inch in portrait and 1030 in landscape; the minimum print scale is 0.3. */
function printScale(pixels: number): string {
  const room = pixels > 1000 ? 1030 : 700;
  return `p${Math.max(30, Math.min(80, 5 * Math.floor((room / pixels) * 20)))}`;
}

function measureTable({ looks, extent }: SheetView): number {
  const widths = [numberWidth, ...extent.columns.map((column) => looks.widths.get(column) ?? looks.defaultWidth)];
  return widths.reduce((sum, width) => sum + toPixels(width), 0);
}

/** In characters: a browser opens a page this long slowly, a much longer one not at all. */
const longestPage = 64 * 1024 * 1024;

/** Counts the rows of a page as they are written, so that an endless page is refused early. */
export class PageLength {
  private written = 0;

  countLength(row: string): string {
    this.written += row.length;
    if (this.written > longestPage) {
      throw new WorkbookProblem(
        "too large",
        `a page of this workbook would exceed ${longestPage} characters, because its texts are long`,
      );
    }
    return row;
  }
}
