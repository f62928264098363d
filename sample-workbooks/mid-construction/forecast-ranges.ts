import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, palette, style } from "../blocks/style";
import { between, text } from "../blocks/validation";
import { openings, type Range, repairs } from "./scenario";

const count = 7;

function block(at: number): { readonly at: number; readonly first: number; readonly last: number } {
  return { at, first: at + 2, last: at + 1 + count };
}

/** Rows of the planned repairs and of the openings still to come, spare rows included. */
export const rangeRows = { repairs: block(52), openings: block(63) } as const;

/** What repairs will take away and openings will add, each between a low and a high flow. */
export function rangesSection(sheet: Sheet): void {
  table(sheet, rangeRows.repairs, "Planned repairs: flow at 50 Pa that each takes away", repairs);
  table(sheet, rangeRows.openings, "Openings still to come: flow at 50 Pa that each adds", openings);
}

function table(
  sheet: Sheet,
  { at, first, last }: ReturnType<typeof block>,
  title: string,
  given: readonly Range[],
): void {
  section(sheet, at, ["B", "H"], title);
  columnHeads(sheet, at + 1, "B", ["<what", "likely, m³/h", "low, m³/h", "high, m³/h", "<<"]);
  for (let row = first; row <= last; row++) {
    const [what, likely, low, high] = given[row - first] ?? [];
    sheet.type(`B${row}`, what ?? null, undefined, "left").type(`C${row}`, likely ?? null, decimals(1));
    sheet.type(`D${row}`, low ?? null, decimals(1)).type(`E${row}`, high ?? null, decimals(1));
    const partly = `AND(COUNT(C${row}:E${row})>0,COUNT(C${row}:E${row})<3)`;
    const disordered = `AND(COUNT(C${row}:E${row})=3,OR(C${row}<D${row},C${row}>E${row}))`;
    sheet.formula(
      `F${row}`,
      `IF(${partly},"three numbers, please",IF(${disordered},"low ≤ likely ≤ high",""))`,
      looks.unit,
    );
  }
  sheet.when(`F${first}:F${last}`, `F${first}<>""`, style({ bold: true, colour: palette.fail }));
  sheet.validate(
    text(`B${first}:B${last}`, "What", "The repair or the opening, and its number in the leak register.", 70),
    between(`C${first}:E${last}`, 0, 100000, "Flow, m³/h", "At 50 Pa; likely, and the least and the most it may be."),
  );
}
