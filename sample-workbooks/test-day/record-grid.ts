import { lettersOf } from "../blocks/address";
import type { CellStyle } from "../blocks/hucre";
import type { Sheet } from "../blocks/sheet";
import { looks, palette, style } from "../blocks/style";

/**
 * The record is a landscape page of four runs beside each other, six columns each, and a gap after each run. The first page spans
 * two runs with each of its halves.
 */
const run = { widths: [2.8, 5.7, 5.2, 6.8, 6, 6.8], gap: 0.85, count: 4 } as const;

/** Characters: margin, runs, gaps between them. They just fit on A4 at 100 %, so that nothing shrinks. */
export const widths = [
  1.5,
  ...Array.from({ length: run.count }, () => [...run.widths, run.gap])
    .flat()
    .slice(0, -1),
];

/** A column by its run and its place in it, both counted from 0: the first column of the first run is B. */
export function columnAt(place: number, offset: number): string {
  return lettersOf(1 + place * (run.widths.length + 1) + offset);
}

export const lastColumn = columnAt(run.count - 1, run.widths.length - 1);

/** Enough to write in by hand, in points. */
export const writingHeight = 18;

const edge = { style: "thin", color: { rgb: palette.grey } } as const;

/** A box to write in by hand, or one that is filled already. Nothing in it is typed: the record is paper. */
export function boxed(look: CellStyle = style({ size: 9 })): CellStyle {
  return { ...look, border: { top: edge, right: edge, bottom: edge, left: edge } };
}

/** An empty box over some columns of one or more rows. */
export function writeBox(sheet: Sheet, range: string): void {
  const [first = ""] = range.split(":");
  sheet.put(first, null, boxed());
  if (range.includes(":")) sheet.merge(range);
}

/** A label of the form; it may run on over the empty cells to its right. */
export const label = style({ size: 8 });

/** A column head in a row with its heading. */
export const head = style({ size: 8, colour: palette.grey, align: "center", vertical: "bottom" });

/** A block's heading; the arrow leads to the sheet of the final test on which its lines are typed. */
export function writeBlockHeading(
  sheet: Sheet,
  row: number,
  [left, right]: readonly [string, string],
  title: string,
  target: string,
): void {
  sheet.put(`${left}${row}`, `${title}${title && " "}→ ${target}`, looks.heading);
  sheet.paint(`${left}${row}:${right}${row}`, looks.headingRule);
}
