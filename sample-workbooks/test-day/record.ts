import { letterhead, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { looks, palette, style } from "../blocks/style";
import { sheets } from "./layout";
import { lastColumn, widths, writingHeight } from "./record-grid";
import { lastOfHouse, writeHouse } from "./record-house";
import { lastOfRuns, writeRuns } from "./record-runs";

/** What may not be forgotten where only this sheet is at hand. */
const cautions =
  "Before the fan runs: combustion appliances and pilot lights off, no embers; doors watched, " +
  "nobody passes, inner doors wedged. Afterwards: all restored.";

/**
 * Two pages to print and to write on by hand, in the order in which the form of the final test is typed, so that typing needs no
 * search. Nothing is typed into this sheet itself.
 */
export function recordPage(): Page {
  const sheet = new Sheet(sheets.record, widths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:${lastColumn}${lastOfHouse}`, `B${lastOfHouse + 1}:${lastColumn}${lastOfRuns}`],
    pages: 2,
    footer: "Site record of an airtightness test",
  });
  writePageHead(sheet, letterhead, ["B", lastColumn], "Site record", cautions);
  sheet.put("B3", cautions, style({ bold: true, colour: palette.ink }, looks.lead));
  sheet.height(24, 2).height(4, 4).heightOf(writingHeight, 5, lastOfHouse);
  const order = "to be written on by hand and typed in this order; → names the sheet of the final test";
  sheet.put(`${lastColumn}2`, order, looks.titleRight);
  writeHouse(sheet);
  writeRuns(sheet);
  return { sheet, names: {} };
}
