import { formatCellText } from "../page/cell-text";
import type { Area, Book, CellValue } from "../model";
import { parseA1Ref } from "@borgar/fx/xlsx";

/** One line of a workbook's own summary; `text` is the value as the cell's number format shows it. */
interface SummaryLine {
  readonly label: string;
  readonly value: CellValue;
  readonly text: string;
  readonly unit: string;
}

/** The summary block: the range named Summary, of two or three columns (label, value, unit). */
export type Summary = { readonly lines: readonly SummaryLine[] } | { readonly absent: string };

/** What a cell holds now, and how it is shown; undefined if it could not be evaluated. */
export type CellReader = (
  sheet: number,
  row: number,
  column: number,
) => { value: CellValue; format: string } | undefined;

export function readSummary(book: Book, read: CellReader): Summary {
  const names = book.names.filter(({ name }) => name.toLowerCase() === "summary");
  const name = names.find(({ sheet }) => sheet === undefined) ?? names[0];
  if (!name) return { absent: "the workbook has no name Summary" };
  const place = placeOf(book, name.text, name.sheet);
  const width = place ? place.area.right - place.area.left + 1 : 0;
  if (!place || width < 2 || width > 3) return { absent: "the name Summary is not a range of two or three columns" };
  const { sheet, area } = place;
  const lines: SummaryLine[] = [];
  for (let row = area.top; row <= area.bottom; row++) {
    const show = (column: number): Shown => describeShown(read(sheet, row, column), book.date1904);
    const label = show(area.left);
    const value = show(area.left + 1);
    if (label.text === "" && value.text === "") continue;
    lines.push({
      label: label.text,
      value: value.value,
      text: value.text,
      unit: width === 3 ? show(area.right).text : "",
    });
  }
  return { lines };
}

function placeOf(book: Book, text: string, home: number | undefined): { sheet: number; area: Area } | undefined {
  const reference = parseA1Ref(text);
  if (!reference || !("range" in reference)) return undefined;
  const { top, left, bottom = top, right = left } = reference.range;
  if (typeof top !== "number" || typeof left !== "number" || typeof bottom !== "number" || typeof right !== "number") {
    return undefined;
  }
  const wanted = reference.sheetName?.toLowerCase();
  const sheet = wanted ? book.sheets.findIndex(({ name }) => name.toLowerCase() === wanted) : (home ?? -1);
  return sheet < 0 ? undefined : { sheet, area: { top, left, bottom, right } };
}

interface Shown {
  readonly value: CellValue;
  readonly text: string;
}

function describeShown(cell: { value: CellValue; format: string } | undefined, date1904: boolean): Shown {
  return cell
    ? { value: cell.value, text: formatCellText(cell.value, cell.format, date1904) }
    : { value: null, text: "not evaluated" };
}
