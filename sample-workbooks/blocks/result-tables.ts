import { budgetFormats, resultFormats, wholeTestSymbols } from "../../src/workbook/table-formats";
import { quoted } from "./add-in";
import type { CellStyle } from "./hucre";
import type { Paper, Sheet } from "./sheet";
import { decimals, fromAddIn, palette, style } from "./style";

export { wholeTestSymbols };

/** Column heads of the add-in's tables. */
export const tableHeads = ["<what it is", "<symbol", "value", "lower", "upper", "<<unit", "<source"];

/** The row of a whole-test table whose words take two lines, and its height. */
export function setWholeTestHeights(sheet: Sheet, top: number): void {
  sheet.height(24, top + placeIn(wholeTestSymbols, longRow));
}

const longRow = "limits";

/** The look of a cell of a table, by its column and by the symbol of its row; words shrink rather than being cut off. */
export function tableLook(column: number, symbol: string): CellStyle {
  if (column >= 5)
    return style(
      { size: 8, colour: palette.grey, shrink: true, indent: column === 5 ? 1 : 0 },
      fromAddIn(undefined, "left"),
    );
  if (column === 0 && symbol === longRow) return style({ wrap: true }, fromAddIn(undefined, "left"));
  if (column < 2) return style({ shrink: true }, fromAddIn(undefined, "left"));
  const format = resultFormats[symbol];
  return format ? fromAddIn(format) : style({ shrink: true }, fromAddIn());
}

/** A row of a table by its symbol. */
export function placeIn(symbols: readonly string[], symbol: string): number {
  const place = symbols.indexOf(symbol);
  if (place < 0) throw new Error(`the table has no row ${symbol}`);
  return place;
}

/**
 * A value of a table that fills cells, or #N/A where its row does not carry the symbol. Three traps are behind this: a table that gives one error
 * leaves the cells below blank, and a plain reference would read them as 0; so would it a value that is blank where the table is frozen; and MATCH
 * takes no notice of letter case, so that the number of readings N could be taken for the exponent n.
 */
export function guardedCell(symbol: string, symbolCell: string, valueCell: string): string {
  return `IF(${symbolCell}=${quoted(symbol)},IF(${valueCell}="","",${valueCell}),NA())`;
}

/** Rows of a table of UNCERTAINTYBUDGET, always the same. */
export const budgetRows = 93;

/** Those of them that are sources. */
const sourceRows = 46;

/** Place of the row "diff" among them, counted from 0. */
const differenceRow = sourceRows + 15;

/** Rows that print, up to the difference of the directions; the form has what follows from them where it decides, and the report has the full intervals. */
const printedRows = differenceRow + 2;

/** Rows of such a table, counted from 0, whose name or note takes two lines. */
const longRows = [4, 5, 6, 7, 8, 9, 10, 11, 12, 21, 22, 28, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45, 62];

/** Those that take three on Letter, which is narrower than A4. */
const longestRows = [32, 33, 39, 40];

/** The heights of a table's rows. */
export function setBudgetHeights(sheet: Sheet, top: number, paper: Paper = "a4"): void {
  const heightOf = (row: number) => {
    if (paper === "letter" && longestRows.includes(row)) return 39.5;
    const [two, one] = paper === "letter" ? [27, 13] : [25, 12.5];
    return longRows.includes(row) ? two : one;
  };
  for (let row = 0; row < budgetRows; row++) sheet.height(heightOf(row), top + row);
}

/** The print areas of a table with its title above it: two pages below heads that every page repeats. */
export function budgetAreas(left: string, right: string, top: number, paper: Paper = "a4"): string[] {
  const half = top + (paper === "letter" ? 33 : 32);
  return [`${left}${top - 1}:${right}${half - 1}`, `${left}${half}:${right}${top + printedRows - 1}`];
}

/** The row that hands the readings of a run to the check of a mean: a long text that nobody reads. */
const handedOnRow = budgetRows - 2;

/** Column widths of such a table, in the order of its heads; Letter is narrower than A4, and its letters on the sheet larger. */
export function budgetWidths(paper: Paper): number[] {
  const [symbol, note] = paper === "a4" ? [12, 48] : [13, 43];
  return [42, symbol, 16, 9.5, 9, 11, 7.5, 10.5, 8, 8, note];
}

/** Column heads of such a table. */
export const budgetHeads = [
  "<source",
  "<symbol",
  "standard uncertainty",
  "<<unit",
  "sensitivity",
  "contribution",
  "share",
  "degrees of freedom",
  "lower",
  "upper",
  "<<note",
];

const leftAligned = [0, 1, 3, 10];

/** Cells whose numbers want a format of their own, by row and column counted from 0: a sensitivity to one pascal of the barometer, whole degrees of freedom, a difference with its sign. */
const ownFormats: Readonly<Record<string, string>> = {
  "13,4": '0.0E+00;"−"0.0E+00',
  [`${sourceRows + 9},2`]: "0",
  ...Object.fromEntries([2, 8, 9].map((column) => [`${differenceRow},${column}`, decimals(2)])),
};

/** The look of a cell of such a table, by its row and column counted from 0. */
export function budgetLook(row: number, column: number): CellStyle {
  const words = leftAligned.includes(column);
  const indent = column === 3 || column === 10 ? 1 : 0;
  const plain = fromAddIn(ownFormats[`${row},${column}`] ?? budgetFormats[column], words ? "left" : "right");
  const wrap = words && longRows.includes(row);
  const shrink = words && !wrap && row !== handedOnRow;
  return style({ wrap, shrink, indent, ...(column > 0 && words && { size: 8, colour: palette.grey }) }, plain);
}
