import { call } from "./add-in";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "./heading";
import { heightFor, Sheet } from "./sheet";
import { fromAddIn, looks, palette, style } from "./style";

/**
 * A page of notes under their headings, closed by the version of the method behind the results named; it takes `bottom` rows on paper, and `beside`
 * are widths of columns to the right of it. */
export function notesSheet(
  name: string,
  footer: string,
  lead: string,
  notes: readonly (readonly [heading: string, words: string])[],
  bottom: number,
  results: string,
  beside: readonly number[] = [],
): Sheet {
  const sheet = new Sheet(name, [1.5, 40, 33, 33, ...beside], palette.copper, {
    orientation: "portrait",
    areas: [`B1:D${bottom}`],
    pages: 1,
    footer,
  });
  writePageHead(sheet, letterhead, ["B", "D"], name, lead);
  writeHeading(sheet, 5, ["B", "D"], "Method");
  notes.forEach(([heading, words], index) => {
    const row = 6 + index;
    sheet.put(`B${row}`, heading, style({ bold: true, vertical: "top" }, looks.textLine));
    sheet.put(`C${row}`, words, style({ vertical: "top" }, looks.textLine)).merge(`C${row}:D${row}`);
    sheet.height(heightFor(words, 70) + 6, row);
  });
  const row = 7 + notes.length;
  sheet.put(`B${row}`, "Version of the calculation method", looks.label);
  sheet.addIn(`C${row}`, call("METHODVERSION", results), fromAddIn(undefined, "left"));
  return sheet;
}

/** What a step does, where it stands, and where it comes from, with the mark of how sure that is. */
interface SourcedNote {
  readonly subject: string;
  readonly where: string;
  readonly words: string;
  readonly source: string;
  readonly mark: string;
}

/** Notes with their sources in columns B to F, a row each; `width` is that of the words, in characters. */
export function writeSourcedNotes(
  sheet: Sheet,
  heads: readonly string[],
  notes: readonly SourcedNote[],
  width: number,
): void {
  writeColumnHeads(sheet, 6, "B", heads);
  sheet.height(16, 5).height(14, 6);
  notes.forEach(({ subject, where, words, source, mark }, index) => {
    const row = 7 + index;
    sheet.put(`B${row}`, subject, style({ bold: true, wrap: true, vertical: "top" }, looks.textLine));
    sheet.put(`C${row}`, where, style({ size: 8, colour: palette.grey, vertical: "top" }, looks.textLine));
    sheet.put(`D${row}`, words, style({ vertical: "top" }, looks.textLine));
    sheet.put(`E${row}`, source, style({ size: 8, vertical: "top", align: "left", indent: 1 }, looks.textLine));
    sheet.put(`F${row}`, mark, style({ vertical: "top", align: "left", indent: 1 }, looks.textLine));
    sheet.height(Math.max(heightFor(words, width), heightFor(source, 24, 8)), row);
  });
}
