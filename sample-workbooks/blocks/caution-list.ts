import { pageHead, section } from "./heading";
import { letterhead } from "./letterhead";
import { heightFor } from "./paragraph";
import { Sheet } from "./sheet";
import { looks, palette, style } from "./style";
import { text } from "./validation";

/** What is to be seen to, and why. */
export type Caution = readonly [what: string, words: string];

/** Cautions under a heading: before, while, afterwards. */
export type CautionStage = readonly [stage: string, items: readonly Caution[]];

/** A list to go through on the day, with room for initials. */
export function cautionSheet(name: string, footer: string, lead: string, stages: readonly CautionStage[]): Sheet {
  const items = stages.reduce((sum, [, list]) => sum + list.length, 0);
  const last = 5 + items + 2 * stages.length;
  const sheet = new Sheet(name, [1.5, 27, 56, 12], palette.copper, {
    orientation: "portrait",
    areas: [`B1:D${last}`],
    pages: 1,
    footer,
  });
  pageHead(sheet, letterhead, ["B", "D"], name, lead);
  let row = 5;
  for (const [stage, list] of stages) {
    section(sheet, row, ["B", "D"], stage);
    const head = style({ size: 8, colour: palette.grey, align: "right", vertical: "bottom", bottom: palette.petrol });
    sheet.put(`D${row}`, "seen to by", head).height(18, row);
    for (const [what, words] of list) {
      row += 1;
      sheet.put(`B${row}`, what, style({ bold: true }, looks.textLine));
      sheet.put(`C${row}`, words, looks.textLine);
      sheet.type(`D${row}`, null, undefined, "left").height(heightFor(words, 56) + 4, row);
      sheet.validate(text(`D${row}`, "Seen to by", "Initials of the person who saw to it.", 20));
    }
    row += 2;
  }
  const closing = "The results are the tester’s responsibility under local codes. The workbook replaces no licence.";
  sheet.put(`B${row}`, closing, looks.note).merge(`B${row}:D${row}`);
  return sheet;
}
