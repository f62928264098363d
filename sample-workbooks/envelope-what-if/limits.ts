import { onSheet } from "../blocks/address";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { limitColumns, limitRows, limitTableWidths, writeLimitTable } from "../blocks/limit-table";
import { type Page, Sheet } from "../blocks/sheet";
import { looks, native, palette } from "../blocks/style";
import { chosen, footer, sheets, variantColumns } from "./layout";

const note = limitRows.last + 2;

/** The limits that programmes set, with spare rows for a limit of one's own; the user's to change. */
export function limitsPage(): Page {
  const sheet = new Sheet(sheets.limits, limitTableWidths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:L${note + 2}`],
    pages: 1,
    titleRows: "1:4",
    footer,
    workingPaper: true,
  });
  const lead =
    "Limits that programmes set, to be changed as editions change. Local code and the certifier decide which one holds, and in which edition.";
  writePageHead(sheet, letterhead, ["B", "L"], "Limits", lead);
  sheet.heightOf(13.5, 5, note + 2);
  writeHeading(sheet, 5, ["B", "L"], "In the comparison");
  for (const [row, label, which] of [
    [6, "Criterion of the base", "Base"],
    [7, "Criterion of the variant", "Variant"],
  ] as const) {
    sheet.put(`B${row}`, label, looks.label);
    sheet.formula(`C${row}`, chosen(which, variantColumns.criterion), native(undefined, "left"));
    sheet.merge(`C${row}:E${row}`);
  }
  sheet.rich(
    "B9",
    "Each variant names its criterion on the sheet Variants. A limit of your own goes into a spare row at the end of the table: a name, a quantity, the pressure at which it holds, the number. " +
      "Leakage areas per envelope area are taken as equivalent at 10 Pa (C_{d} 0.611) where the pressure is 10 Pa, as effective (C_{d} 1) where it is 4 Pa.",
    looks.note,
  );
  sheet.merge("B9:L11");
  writeLimitTable(sheet, "$C$6");
  sheet.when(`B${limitRows.first}:L${limitRows.last}`, `AND($B${limitRows.first}<>"",$B${limitRows.first}=$C$7)`, {
    font: { bold: true, color: { rgb: palette.copper } },
  });
  sheet.put(
    `B${note}`,
    "Mark C: read in a published text. Mark M: written from memory of the document; check against your own copy before you rely on it. Limits per square foot are converted with 1 cfm/ft² = 18.288 m³/(h·m²). " +
      "Decimals and directions matter for the verdict on a test, not for an estimate.",
    looks.note,
  );
  sheet.merge(`B${note}:L${note + 2}`);
  return { sheet, names: {} };
}

/** A property of the limit with a name, by its column in the table of limits; blank while the name is blank or stands for none. */
export function ofLimit(property: keyof typeof limitColumns, name: string): string {
  const column = (letter: string) => onSheet(sheets.limits, `${letter}${limitRows.first}:${letter}${limitRows.last}`);
  const found = `INDEX(${column(limitColumns[property])},MATCH(${name},${column(limitColumns.name)},0))`;
  return `IF(${name}="","",IF(${found}="","",${found}))`;
}

/** The names of the limits, for lists. */
export const limitNames = onSheet(sheets.limits, `B${limitRows.first}:B${limitRows.last}`);
