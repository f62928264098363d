import { recallFormulas } from "../book/formulas";
import { applyEdits, type Edit } from "../file/write/cell-edits";
import { type Element, readElements } from "../file/xml/xml";
import type { Book } from "../model";

/** Names that say what a client is shown: sheets that are the firm's own, sheets and rows that matter only where something is filled in. */
export const clientNames = {
  workingPapers: "WorkingPapers",
  sheets: "SheetsIfFilled",
  rows: "RowsIfFilled",
} as const;

/** What a copy for a client hides, and therefore does not print. */
export interface ClientView {
  readonly hidesSheet: (sheet: number) => boolean;
  readonly hidesRow: (sheet: number, row: number) => boolean;
  /** The sheet that the copy opens with. */
  readonly opensWith: number;
  readonly hiddenSheets: readonly string[];
  /** Working papers are hidden; the list of formulas is one of them, but for its head with the fingerprint. */
  readonly isPartial: boolean;
}

/**
 * What is hidden: sheets and rows whose named cells hold nothing, and, unless the whole workbook is wanted, the working papers. Undefined for a workbook
 * without these names, and where no sheet would be left.
 */
export function chooseClientView(book: Book, whole: boolean): ClientView | undefined {
  const formulas = recallFormulas(book);
  const listed = (name: string) => formulas.listNamedAreas(name);
  const rows = listed(clientNames.rows).map((area) => ({ ...area, filled: findFilledRows(book, area) }));
  const papers = whole ? [] : listed(clientNames.workingPapers).map(({ sheet }) => sheet);
  const hidden = new Set([
    ...papers,
    ...listed(clientNames.sheets)
      .filter((area) => findFilledRows(book, area).size === 0)
      .map(({ sheet }) => sheet),
  ]);
  const opensWith = book.sheets.findIndex(({ visibility }, index) => visibility === "visible" && !hidden.has(index));
  if (opensWith < 0 || (hidden.size === 0 && rows.length === 0)) return undefined;
  return {
    hidesSheet: (sheet) => hidden.has(sheet),
    hidesRow: (sheet, row) => {
      const over = rows.filter((area) => area.sheet === sheet && row >= area.top && row <= area.bottom);
      return over.length > 0 && over.every(({ filled }) => !filled.has(row));
    },
    opensWith,
    hiddenSheets: [...hidden].sort((a, b) => a - b).flatMap((index) => book.sheets[index]?.name ?? []),
    isPartial: papers.length > 0,
  };
}

type NamedArea = ReturnType<ReturnType<typeof recallFormulas>["listNamedAreas"]>[number];

/** Rows of an area with something in it; an empty text is nothing. */
function findFilledRows(book: Book, { sheet, top, bottom, left, right }: NamedArea): Set<number> {
  const filled = new Set<number>();
  for (const { row, column, value } of book.sheets[sheet]?.cells.values() ?? [])
    if (row >= top && row <= bottom && column >= left && column <= right && (value ?? "") !== "") filled.add(row);
  return filled;
}

/** The text of a sheet part with its rows hidden, and its tab selected or not. */
export function showSheet(partName: string, text: string, sheet: number, view: ClientView): string {
  const root = readElements(partName, text, 3);
  const edits: Edit[] = [];
  for (const { name, children } of root.children) {
    if (name === "sheetData")
      for (const row of children)
        if (view.hidesRow(sheet, Number(row.attributes["r"]) - 1))
          edits.push(...setAttribute(text, row, "hidden", "1"));
    if (name === "sheetViews")
      for (const one of children)
        edits.push(...setAttribute(text, one, "tabSelected", sheet === view.opensWith ? "1" : "0"));
  }
  return applyEdits(text, edits);
}

/** The edits of the workbook part: states of the sheets, and the sheet that it opens with. */
export function showSheets(text: string, root: Element, view: ClientView): Edit[] {
  return root.children.flatMap(({ name, children }) => {
    if (name === "sheets")
      return children.flatMap((sheet, index) =>
        view.hidesSheet(index) ? setAttribute(text, sheet, "state", "hidden") : [],
      );
    // LibreOffice prints a hidden sheet too if it has a print area.
    if (name === "definedNames")
      return children.flatMap(({ attributes, start, end }) => {
        const isPrinted = attributes["name"] === "_xlnm.Print_Area" && attributes["localSheetId"] !== undefined;
        return isPrinted && view.hidesSheet(Number(attributes["localSheetId"])) ? [{ start, end, text: "" }] : [];
      });
    if (name !== "bookViews") return [];
    return children.flatMap((one) => [
      ...setAttribute(text, one, "firstSheet", String(view.opensWith)),
      ...setAttribute(text, one, "activeTab", String(view.opensWith)),
    ]);
  });
}

function setAttribute(
  text: string,
  { tagName, attributes, start, openEnd }: Element,
  name: string,
  value: string,
): Edit[] {
  if (attributes[name] === value) return [];
  const tag = text.slice(start, openEnd);
  const present = new RegExp(`\\s${name}\\s*=\\s*("[^"]*"|'[^']*')`).exec(tag);
  const written = ` ${name}="${value}"`;
  const at = start + 1 + tagName.length;
  return present
    ? [{ start: start + present.index, end: start + present.index + present[0].length, text: written }]
    : [{ start: at, end: at, text: written }];
}
