import { writeHeading } from "./heading";
import type { Sheet } from "./sheet";
import { fromAddIn, input, looks, native, palette, style } from "./style";

/** A label and what is typed beside it. */
type Fact = readonly [label: string, value: string | number];

/** Two lists of facts side by side, labels in B and F, values over C:D and G:H; `dates` are the rows on the right that hold days. */
export function writeFactList(
  sheet: Sheet,
  first: number,
  left: readonly Fact[],
  right: readonly Fact[],
  dates: readonly number[],
  dateFormat: string,
): void {
  const look = style({ shrink: true }, input(undefined, "left"));
  left.forEach(([label, value], index) => {
    const row = first + index;
    sheet.put(`B${row}`, label, looks.label).put(`C${row}`, value, look).merge(`C${row}:D${row}`);
  });
  right.forEach(([label, value], index) => {
    const row = first + index;
    sheet.put(`F${row}`, label, looks.label);
    sheet.put(`G${row}`, value, dates.includes(index) ? input(dateFormat, "left") : look).merge(`G${row}:H${row}`);
  });
}

/** Where a legend stands: its first row, the column in which the words on all other cells begin, its last column. */
interface LegendPlace {
  readonly at: number;
  readonly others: "E" | "F";
  readonly right: string;
}

/** How to read a workbook: what the looks of cells mean, in B to D, and below them some rows of words on its sheets. */
export function writeLegend(
  sheet: Sheet,
  { at, others, right }: LegendPlace,
  words: string,
  rowsOfWords: number,
): void {
  writeHeading(sheet, at, ["B", right], "How to read this workbook");
  const row = at + 1;
  sheet
    .put(`B${row}`, "typed in", { ...input(undefined, "center"), protection: { locked: true } })
    .put(`C${row}`, "native formula", native(undefined, "center"))
    .put(`D${row}`, "from the add-in", fromAddIn(undefined, "center"));
  // Where no empty column lies between, the words keep a distance from the look beside them.
  const look = style({ vertical: "center", ...(others === "E" && { indent: 1 }) }, looks.note);
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
