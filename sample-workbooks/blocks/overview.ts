import { absolute } from "./address";
import { writeHeading } from "./heading";
import type { CellStyle } from "./hucre";
import type { Sheet } from "./sheet";
import { fromAddIn, input, looks, native, palette, style } from "./style";

/** A label, what is typed beside it, and a look for what is no plain text. */
export type Fact = readonly [label: string, value: string | number, look?: CellStyle];

/** A list of facts: labels in the first column, what is typed over the columns from the second to the third. */
export function writeFactList(
  sheet: Sheet,
  at: number,
  [label, value, last]: readonly [label: string, value: string, last: string],
  facts: readonly Fact[],
): void {
  facts.forEach(([words, typed, look], index) => {
    const row = at + index;
    sheet
      .put(`${label}${row}`, words, looks.label)
      .put(`${value}${row}`, typed, look ?? input(undefined, "left", true))
      .merge(`${value}${row}:${last}${row}`);
  });
}

/** Where a legend stands: its first row, the column in which the words on all other cells begin, its last column. */
interface LegendPlace {
  readonly at: number;
  readonly others: "E" | "F";
  readonly right: string;
  /** Column D is too narrow for its look: it takes E too. */
  readonly overTwo?: boolean;
}

/** How to read a workbook: what the looks of cells mean, in B to D, and below them some rows of words on its sheets. */
export function writeLegend(
  sheet: Sheet,
  { at, others, right, overTwo = false }: LegendPlace,
  words: string,
  rowsOfWords: number,
): void {
  writeHeading(sheet, at, ["B", right], "How to read this workbook");
  const row = at + 1;
  sheet
    .put(`B${row}`, "typed in", { ...input(undefined, "center"), protection: { locked: true } })
    .put(`C${row}`, "native formula", native(undefined, "center"))
    .put(`D${row}`, "from the add-in", fromAddIn(undefined, "center"));
  if (overTwo) sheet.merge(`D${row}:E${row}`);
  // Where no empty column lies between, the words keep a distance from the look beside them.
  const isNext = others === "E" || overTwo;
  const look = style({ vertical: "center", ...(isNext && { indent: 1 }) }, looks.note);
  sheet
    .put(`${others}${row}`, "all else is protected, without a password", look)
    .merge(`${others}${row}:${right}${row}`)
    .height(18, row);
  sheet.put(`B${row + 1}`, words, looks.note).merge(`B${row + 1}:${right}${row + rowsOfWords}`);
}

/** Two lines to sign on, over B to D and F to H. */
export function writeSignatures(sheet: Sheet, row: number): void {
  const line = style({ top: palette.ink, size: 8, colour: palette.grey, vertical: "top" });
  sheet.put(`B${row}`, "Tested by: signature, day", line).put(`F${row}`, "Checked by: signature, day", line);
  for (const place of [`B${row}:D${row}`, `F${row}:H${row}`]) sheet.paint(place, line);
}

/** A word in capitals, white on the colour that belongs to it, over the cells of a range; grey for any other word. */
export function writeLargeWord(
  sheet: Sheet,
  range: string,
  formula: string,
  colours: readonly (readonly [word: string, colour: string])[],
  touches: { readonly size: number; readonly shrink?: true; readonly wrap?: true },
): void {
  const [cell = ""] = range.split(":");
  const look = { bold: true, colour: palette.white, fill: palette.open, align: "center", ...touches } as const;
  sheet.formula(cell, formula, style(look)).merge(range);
  for (const [word, rgb] of colours)
    sheet.when(range, `${absolute(cell)}="${word}"`, { fill: { type: "pattern", pattern: "solid", bgColor: { rgb } } });
}

/** The word of a verdict in capitals; "OPEN" while there is none. */
export function verdictInCapitals(verdict: string): string {
  const words = ["pass", "fail", "not proven", "not valid"];
  const shown = words.reduceRight(
    (otherwise, word) => `IF(${verdict}="${word}","${word.toUpperCase()}",${otherwise})`,
    '"OPEN"',
  );
  return `IFERROR(${shown},"OPEN")`;
}

export const verdictColours = [
  ["PASS", palette.pass],
  ["FAIL", palette.fail],
] as const;
