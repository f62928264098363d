import type { Sheet } from "./sheet";
import { input, looks, style } from "./style";

/** A label and what is typed beside it. */
type Fact = readonly [label: string, value: string | number];

/** Two lists of facts side by side, labels in B and F, values over C:D and G:H; `dates` are the rows on the right that hold days. */
export function twoColumnsOfFacts(
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
