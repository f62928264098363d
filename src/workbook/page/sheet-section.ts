import { escapeHtml, writeTag } from "../html";
import { formatCellAddress, formatColumn } from "../book/address";
import { toTypedForm } from "../formula/parse/formula-text";
import { type Shown, prepareDrawings } from "./drawing-frames";
import { buildCellIdStart } from "./sheet-cell";
import { formatCellText } from "./cell-text";
import { isWide, type PageLength, writeSheetTable } from "./sheet-table";
import type { SheetView } from "./sheet-view";
import type { StyleSheet } from "./style-sheet";

export function buildSheetAnchor({ index }: SheetView): string {
  return `sheet-${index + 1}`;
}

/** A sheet with its heading, notes on what is not shown, the table in a scrolling region, and its formulas. */
export function writeSheetSection(
  view: SheetView,
  views: readonly SheetView[],
  styles: StyleSheet,
  {
    named,
    hasGraph,
    length,
  }: { readonly named: ReadonlySet<string>; readonly hasGraph: boolean; readonly length: PageLength },
): string {
  const { sheet } = view;
  const anchor = buildSheetAnchor(view);
  const heading = writeTag("h2", {}, escapeHtml(sheet.name));
  const drawings = prepareDrawings(view, views);
  const notes = listNotes(view, drawings, hasGraph).map((note) => writeTag("li", {}, escapeHtml(note)));
  const told = notes.length === 0 ? "" : writeTag("ul", { class: "plain soft" }, notes.join(""));
  const shown = new Set<string>();
  const isNamed = (id: string): boolean => named.has(id) && shown.add(id).has(id);
  const table = writeTable(view, drawings, { styles, length, isNamed });
  // Links to cells not shown lead to the sheet's notes.
  const hidden = [...named].filter((id) => id.startsWith(buildCellIdStart(view.index)) && !shown.has(id));
  const ends = hidden.map((id) => writeTag("span", { id })).join("");
  const attributes = {
    id: anchor,
    class: isWide(view) ? "sheet-part wide" : "sheet-part",
    "aria-label": `Sheet ${sheet.name}`,
  };
  return writeTag(
    "section",
    attributes,
    [ends, heading, told, table, writeFormulaList(view, length)].filter((part) => part !== "").join("\n"),
  );
}

/** The sheet as a table in a scrolling region, without heading and formulas. */
export function writeSheetTableOf(
  view: SheetView,
  views: readonly SheetView[],
  styles: StyleSheet,
  { named, length }: { readonly named: { has(id: string): boolean }; readonly length: PageLength },
): string {
  return writeTable(view, prepareDrawings(view, views), { styles, length, isNamed: (id) => named.has(id) });
}

function writeTable(
  view: SheetView,
  drawings: ReturnType<typeof prepareDrawings>,
  parts: Parameters<typeof writeSheetTable>[2],
): string {
  const { sheet, extent } = view;
  if (extent.rows.length === 0 || extent.columns.length === 0) return writeTag("p", {}, "This sheet has no cells.");
  return writeTag(
    "div",
    { class: "scroll paper", tabindex: 0, role: "region", "aria-label": `Cells of ${sheet.name}` },
    writeSheetTable(view, drawings, parts),
  );
}

/** What the page does not show of the sheet. */
function listNotes({ sheet, looks, extent }: SheetView, drawings: readonly Shown[], hasGraph: boolean): string[] {
  const notes: string[] = [];
  if (sheet.visibility !== "visible") notes.push("This sheet is hidden in the workbook.");
  const { hiddenRows, hiddenColumns } = extent;
  if (hiddenRows.length > 0) {
    const filtered = hiddenRows.every((row) => sheet.filteredRows.has(row)) ? " by a filter" : "";
    notes.push(`Hidden${filtered} and not shown: row ${formatRanges(hiddenRows, (row) => String(row + 1))}.`);
  }
  if (hiddenColumns.length > 0)
    notes.push(`Hidden and not shown: column ${formatRanges(hiddenColumns, formatColumn)}.`);
  const instead = hasGraph ? "; the air leakage graph is above" : "";
  const drawn = drawings.filter(({ chart }) => chart !== undefined).length;
  if (drawn > 0) notes.push("Charts are redrawn from the values on this page, more simply than in the workbook.");
  if (looks.drawings.length > drawn)
    notes.push(`Pictures and charts of other kinds are not drawn but described in words${instead}.`);
  if (looks.otherRules.size > 0)
    notes.push(`Conditional formats of other kinds are not shown (${[...looks.otherRules].join(", ")}).`);
  if (extent.isCut) notes.push("The sheet is larger than shown here.");
  return notes;
}

/** "3–5, 9". */
function formatRanges(places: readonly number[], name: (place: number) => string): string {
  const runs: [first: number, last: number][] = [];
  for (const place of places) {
    const run = runs.at(-1);
    if (run && run[1] === place - 1) run[1] = place;
    else runs.push([place, place]);
  }
  return runs.map(([first, last]) => (first === last ? name(first) : `${name(first)}–${name(last)}`)).join(", ");
}

/** More than this would be longer than the page itself. */
const most = 1500;

/** Every formula of a sheet with its value, collapsed by default. */
function writeFormulaList(view: SheetView, length: PageLength): string {
  const { sheet, date1904 } = view;
  const formulas = [...sheet.cells.values()]
    .filter(({ formula }) => formula !== undefined)
    .sort((one, other) => one.row - other.row || one.column - other.column);
  if (formulas.length === 0) return "";
  const rows = formulas.slice(0, most).map(({ row, column, formula, format }) => {
    const cell = view.cell(row, column);
    const value = cell ? formatCellText(cell.value, format, date1904) : "";
    const parts =
      writeTag("th", { scope: "row" }, formatCellAddress(row, column)) +
      writeTag("td", {}, escapeHtml(value)) +
      writeTag("td", {}, writeTag("code", {}, escapeHtml(toTypedForm(formula?.text ?? ""))));
    return length.countLength(writeTag("tr", {}, parts));
  });
  const more =
    formulas.length > most ? writeTag("p", {}, `… and ${formulas.length - most} more in the workbook itself.`) : "";
  const name = `Formulas of ${sheet.name}`;
  return writeTag(
    "details",
    {},
    writeTag("summary", {}, `Formulas of this sheet (${formulas.length})`) +
      writeTag(
        "div",
        { class: "scroll", tabindex: 0, role: "region", "aria-label": name },
        writeTag(
          "table",
          { class: "list" },
          writeTag("caption", {}, escapeHtml(name)) +
            writeTag(
              "thead",
              {},
              writeTag(
                "tr",
                {},
                ["Cell", "Value", "Formula"].map((head) => writeTag("th", { scope: "col" }, head)).join(""),
              ),
            ) +
            writeTag("tbody", {}, rows.join("\n")),
        ),
      ) +
      more,
  );
}
