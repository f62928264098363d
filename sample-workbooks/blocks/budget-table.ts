import type { CellStyle } from "./hucre";
import { decimals, fromAddIn, palette, style } from "./style";

/** Rows of a table of UNCERTAINTYBUDGET, always the same. */
export const budgetRows = 83;

/** Those of them that are sources. */
export const sourceRows = 36;

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

const numbers = '0.0000;"−"0.0000';
/** From an air change rate to a flow: as many digits as say something. */
const byResult = "[>=100]0.0;[>=10]0.00;0.0000";
const formats = [
  undefined,
  undefined,
  byResult,
  undefined,
  numbers,
  numbers,
  "0.0 %",
  "0",
  byResult,
  byResult,
  undefined,
];
const leftAligned = [0, 1, 3, 10];

/** Place of the row "diff" among them, counted from 0. */
const differenceRow = sourceRows + 15;

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
  const plain = fromAddIn(ownFormats[`${row},${column}`] ?? formats[column], words ? "left" : "right");
  return style({ shrink: true, indent, ...(column > 0 && words && { size: 8, colour: palette.grey }) }, plain);
}
