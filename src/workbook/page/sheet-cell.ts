import { formatCellAddress } from "../book/address";
import type { CellStyle, ConditionalStyle } from "../file/appearance/cell-styles";
import { toTypedForm } from "../formula/parse/formula-text";
import { measureText } from "../graph/text";
import { escapeHtml, writeSpoken, writeTag } from "../html";
import { type CellValue, ErrorValue } from "../model";
import { formatCellText, formatColour } from "./cell-text";
import { toPixels, type Shown, describeDrawing } from "./drawing-frames";
import { type CellView, type Merges, readReason, type SheetView } from "./sheet-view";
import type { Look, StyleSheet } from "./style-sheet";

/** The id of a cell on the page, for links from lists. */
export function buildCellId(sheet: number, row: number, column: number): string {
  return buildCellIdStart(sheet) + formatCellAddress(row, column);
}

/** The prefix of the ids of a sheet's cells. */
export function buildCellIdStart(sheet: number): string {
  return `s${sheet + 1}-`;
}

/** What every cell of a table needs. */
interface TableParts {
  readonly view: SheetView;
  readonly styles: StyleSheet;
  readonly merges: Merges;
  /** What replaces drawings, by the "row column" of their first cell. */
  readonly drawingAt: ReadonlyMap<string, Shown>;
  readonly isNamed: (id: string) => boolean;
}

/** A cell of the table with its style, its marks, and its formula as a tooltip; "" if a merged area covers it. */
export function writeCell(parts: TableParts, row: number, column: number, place: number): string {
  const { view, styles, merges, drawingAt, isNamed } = parts;
  if (merges.isCovered(row, column)) return "";
  const span = merges.spanAt(row, column);
  // A merged area shows its first cell, even if that one is hidden.
  const from = span?.from ?? { row, column };
  const shown = drawingAt.get(`${from.row} ${from.column}`);
  if (shown) {
    const place = { class: shown.chart ? "chart" : "drawing", colspan: span?.columns, rowspan: span?.rows };
    return writeTag("td", place, shown.chart ?? writeTag("span", {}, escapeHtml(describeDrawing(shown.drawing))));
  }
  const cell = view.cell(from.row, from.column);
  const rules = view.rulesAt(from.row, from.column);
  const style = view.looks.styleOf(from.row, from.column);
  const value = cell?.value ?? null;
  const pattern =
    rules.find(({ style: { format } }) => format !== undefined)?.style.format ?? cell?.format ?? "General";
  const look = lookOf(
    style,
    rules.map((rule) => rule.style),
    value,
    formatColour(value, pattern),
  );
  const text = formatCellText(value, pattern, view.date1904);
  const classes = [
    styles.lookClass(look),
    ...listMarks(cell),
    look.wrap || text === ""
      ? ""
      : chooseOverflowClass(parts, look, text, { ...from, place, span: span?.columns ?? 1 }),
  ];
  const id = buildCellId(view.index, from.row, from.column);
  const isHeading = view.headerRows.has(`${from.row} ${from.column}`) && text !== "";
  return writeTag(
    isHeading ? "th" : "td",
    {
      id: isNamed(id) ? id : undefined,
      scope: isHeading ? "col" : undefined,
      class: classes.filter((name) => name !== "").join(" "),
      colspan: span && span.columns > 1 ? span.columns : undefined,
      rowspan: span && span.rows > 1 ? span.rows : undefined,
      title: cell ? describeCell(cell, from) : undefined,
    },
    writeContent(cell, text),
  );
}

function listMarks(cell: CellView | undefined): string[] {
  if (!cell) return [];
  const { isInput, isAddIn, value, notEvaluated } = cell;
  return [
    isInput ? "in" : "",
    isAddIn ? "addin" : "",
    value instanceof ErrorValue ? "err" : "",
    notEvaluated === undefined ? "" : "old",
  ];
}

function describeCell(cell: CellView, { row, column }: { row: number; column: number }): string | undefined {
  const { formula, value, notEvaluated } = cell;
  const parts = [
    formula === undefined ? "" : toTypedForm(formula),
    readReason(value),
    notEvaluated === undefined ? "" : `not evaluated: ${notEvaluated}; the stored value is shown`,
  ].filter((part) => part !== "");
  return parts.length === 0 ? undefined : `${formatCellAddress(row, column)}: ${parts.join(" — ")}`;
}

function writeContent(cell: CellView | undefined, text: string): string {
  if (!cell) return "";
  const said = [
    cell.isInput ? (text === "" ? "input, blank" : "input") : "",
    cell.isAddIn && cell.formula !== undefined ? "computed by the add-in" : "",
    cell.notEvaluated === undefined ? "" : "not evaluated, stored value",
  ].filter((part) => part !== "");
  const words = escapeHtml(text);
  return (
    (words === "" ? "" : `<span>${words}</span>`) + (said.length === 0 ? "" : writeSpoken(` (${said.join(", ")})`))
  );
}

/** Text overflows into blank neighbours, as in Excel; next to a filled neighbour it wraps, so that nothing is hidden. */
function chooseOverflowClass(
  { view, merges }: TableParts,
  { align, font }: Look,
  text: string,
  { row, column, place, span }: { row: number; column: number; place: number; span: number },
): string {
  const { columns } = view.extent;
  const { widths, defaultWidth } = view.looks;
  const measureWidth = (at: number | undefined) => (at === undefined ? 0 : toPixels(widths.get(at) ?? defaultWidth));
  let room = 0;
  for (let index = place; index < place + span; index++) room += measureWidth(columns[index]);
  const needed = measureText(text, ((font.size ?? 11) * 4) / 3, font.bold) + 6;
  if (needed <= room || typeof view.cell(row, column)?.value === "number") return "one";
  const isFree = (at: number | undefined) =>
    at !== undefined && !merges.isCovered(row, at) && isBlank(view.cell(row, at));
  const toLeft = align === "right";
  for (let index = toLeft ? place - 1 : place + span; isFree(columns[index]); index += toLeft ? -1 : 1) {
    room += measureWidth(columns[index]);
    if (needed <= room) return toLeft ? "one over-left" : "one";
  }
  return "";
}

function isBlank(cell: CellView | undefined): boolean {
  return cell === undefined || ((cell.value === null || cell.value === "") && !cell.isInput);
}

/** How a cell looks: its own style, its active conditional formats, the colour of its number format, and Excel's alignment by kind of value. */
function lookOf(
  style: CellStyle,
  conditional: readonly ConditionalStyle[],
  value: CellValue,
  formatColour: string | undefined,
): Look {
  let { font, fill, edges } = style;
  // The first condition takes precedence, so it is applied last.
  for (const change of [...conditional].reverse()) {
    font = { ...font, ...change.font };
    fill = change.fill ?? fill;
    edges = { ...edges, ...change.edges };
  }
  if (formatColour !== undefined) font = { ...font, colour: formatColour };
  return {
    font: makeReadable(font, fill),
    fill,
    edges,
    align: chooseAlignment(style.horizontal, value),
    vertical: style.vertical === "top" ? "top" : style.vertical === "center" ? "middle" : "bottom",
    wrap: style.wrap === true || style.horizontal === "justify" || style.vertical === "justify",
    indent: style.indent ?? 0,
  };
}

/** An automatic colour is black, even on a dark fill, as in Excel. */
function makeReadable(font: Look["font"], fill: string | undefined): Look["font"] {
  return font.colour === undefined && fill === "000000" ? { ...font, colour: "FFFFFF" } : font;
}

function chooseAlignment(horizontal: string | undefined, value: CellValue): Look["align"] {
  if (horizontal === "left" || horizontal === "right") return horizontal;
  if (horizontal === "center" || horizontal === "centerContinuous") return "center";
  if (horizontal === "justify" || horizontal === "fill" || horizontal === "distributed") return "left";
  if (typeof value === "number") return "right";
  return typeof value === "boolean" || value instanceof ErrorValue ? "center" : "left";
}
