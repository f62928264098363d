import type { CellValue } from "../model";
import {
  estimateHeight,
  fixAddresses,
  formatRange,
  writeColumns,
  writeRow,
  writeTextCell,
  writeValueCell,
} from "../added-sheet/cells";
import type { Look } from "../added-sheet/styles";
import { formatForm, markLabels, type IssueMark } from "./mark";

/** One line of the list, with the information shown next to the formula. */
export interface ListLine {
  readonly sheet: string;
  readonly cells: string;
  /** How many formulas. */
  readonly count: number;
  readonly kind: string;
  readonly what: string;
  readonly formula: string;
  readonly value: CellValue;
  /** Interrupts a column or row of other formulas. */
  readonly standsOut: boolean;
}

/** The contents of the block above the list. */
export type Stamp = Pick<IssueMark, "issued" | "methodVersion" | "fingerprint"> & { readonly edge: number };

const title = "Formulas behind the frozen cells";
const introduction =
  "This copy can be read without the add-in. The cells listed here hold the add-in's values; their formulas are given next to them as typed in Excel. Every other formula in the workbook is live. " +
  "Identical formulas share a line: it gives the first cell's formula, and references without $ shift as when copying. Exceptions within such a block are listed between in bold.";
const explanation =
  "The fingerprint is computed from every typed cell, result, formula and defined name and from this sheet, and changes with any of them; formatting, comments and hidden rows are not covered. " +
  "Stillair’s verify command checks it and recomputes the frozen cells. It is not a signature.";
const headings = ["sheet", "cells", "how many", "kind", "what it is", "formula", "value"];

/** Column widths, a margin first. */
const widths = [2, 16, 13, 11, 11, 29, 60, 19];
/** Characters per line in each column of the list. */
const lineLengths = [14, 12, 9, 10, 27, 50, 17];

const firstColumn = 1;
const lastColumn = widths.length - 1;

/** Rows of the mark's block and of the list's heading, counted from 1. */
const rowsOfSheet = { markFirst: 4, markLast: 8, explanation: 9, heading: 11 } as const;

/** The sheet part appended to an issue copy: the mark, and the formulas of the frozen cells. */
export function listSheet(
  stamp: Stamp,
  lines: readonly ListLine[],
  formulas: number,
  style: (look: Look) => number,
  namespace: string,
): string {
  const { markFirst, markLast, explanation: behind, heading } = rowsOfSheet;
  const block: [label: string, value: string, look: Look][] = [
    [markLabels.issued, stamp.issued, "text"],
    [markLabels.methodVersion, stamp.methodVersion, "text"],
    ["Frozen formulas", String(formulas), "text"],
    [markLabels.fingerprint, stamp.fingerprint, "code"],
    [markLabels.form, formatForm(stamp.edge), "text"],
  ];
  const writeText = (row: number, column: number, value: string, look: Look): string =>
    writeTextCell(row, column, value, style(look));
  const rows = [
    writeRow(1, 28, [writeText(1, firstColumn, title, "title")]),
    writeRow(2, 38, [writeText(2, firstColumn, introduction, "note")]),
    ...block.map(([label, value, look], place) =>
      writeRow(markFirst + place, 15, [
        writeText(markFirst + place, firstColumn, label, "label"),
        writeText(markFirst + place, firstColumn + 2, value, look),
      ]),
    ),
    writeRow(behind, 26, [writeText(behind, firstColumn, explanation, "note")]),
    writeRow(
      heading,
      18,
      headings.map((name, place) => writeText(heading, firstColumn + place, name, headingLooks[name] ?? "heading")),
    ),
    ...lines.map((line, place) => writeLine(heading + 1 + place, line, style)),
  ];
  const merged = [1, 2, behind].map((row) => formatRange(row, firstColumn, row, lastColumn));
  for (let row = markFirst; row <= markLast; row += 1) {
    merged.push(
      formatRange(row, firstColumn, row, firstColumn + 1),
      formatRange(row, firstColumn + 2, row, lastColumn),
    );
  }
  const lastRow = heading + lines.length;
  return (
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${namespace}">` +
    `<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><dimension ref="${formatRange(1, firstColumn, lastRow, lastColumn)}"/>` +
    `<sheetViews><sheetView showGridLines="0" workbookViewId="0"/></sheetViews>` +
    `<sheetFormatPr defaultRowHeight="15"/>${writeColumns(widths)}<sheetData>${rows.join("")}</sheetData>` +
    `<sheetProtection sheet="1" objects="1" scenarios="1" formatColumns="0" formatRows="0"/>` +
    `<mergeCells count="${merged.length}">${merged.map((range) => `<mergeCell ref="${range}"/>`).join("")}</mergeCells>` +
    `<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.7" header="0.3" footer="0.3"/>` +
    `<pageSetup paperSize="9" orientation="landscape" fitToWidth="1" fitToHeight="0"/>` +
    `<headerFooter><oddFooter>&amp;L&amp;A&amp;RPage &amp;P of &amp;N</oddFooter></headerFooter></worksheet>`
  );
}

/** The places the workbook's names refer to, with absolute addresses. */
export function locateLists(count: number): {
  readonly mark: string;
  readonly list: string;
  readonly print: string;
  /** The block above the list. */
  readonly head: string;
  readonly titles: string;
} {
  const { markFirst, markLast, heading } = rowsOfSheet;
  return {
    mark: fixAddresses(formatRange(markFirst, firstColumn, markLast, lastColumn)),
    list: fixAddresses(formatRange(heading, firstColumn, heading + count, lastColumn)),
    print: fixAddresses(formatRange(1, firstColumn, heading + count, lastColumn)),
    head: fixAddresses(formatRange(1, firstColumn, heading - 1, lastColumn)),
    titles: `$${heading}:$${heading}`,
  };
}

const headingLooks: Readonly<Record<string, Look>> = { value: "headingRight", "how many": "headingCount" };

function writeLine(
  row: number,
  { sheet, cells, count, kind, what, formula, value, standsOut }: ListLine,
  style: (look: Look) => number,
): string {
  const shown = [sheet, cells, "", kind, what, formula, typeof value === "string" ? value : ""];
  const height = estimateHeight(shown, lineLengths);
  const entry = style(standsOut ? "entryApart" : "entry");
  const writeText = (place: number, words: string, look: number): string =>
    writeTextCell(row, firstColumn + place, words, look);
  return writeRow(row, height, [
    writeText(0, sheet, entry),
    writeText(1, cells, entry),
    writeValueCell(row, firstColumn + 2, count, style("count")),
    writeText(3, kind, entry),
    writeText(4, what, entry),
    writeText(5, formula, style("formula")),
    writeValueCell(row, lastColumn, value, style("value")),
  ]);
}
