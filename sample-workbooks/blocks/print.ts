import { absolute, onSheet } from "./address";
import type { NamedRange, PageSetup, WriteSheet } from "./hucre";

export interface Printing {
  readonly orientation: "portrait" | "landscape";
  /** Each area starts on a page of its own. */
  readonly areas: readonly string[];
  /** Rows repeated on every page, "1:3". */
  readonly titleRows?: string;
  /** At most so many pages, one below the other; without it as many as the length needs. */
  readonly pages?: number;
  readonly footer: string;
}

/** What the printers of a form's readers hold. */
export type Paper = "a4" | "letter";

/** Inches. Both A4 and Letter hold what stands between these margins. */
const margins = { left: 0.6, right: 0.6, top: 0.55, bottom: 0.65, header: 0.3, footer: 0.35 };

/** An ampersand starts a code in headers and footers, so a real one is doubled. */
const plain = (text: string) => text.replaceAll("&", "&&");

export function printing(
  print: Printing,
  paper: Paper,
): {
  pageSetup: PageSetup;
  headerFooter: NonNullable<WriteSheet["headerFooter"]>;
} {
  const small = '&"Arial,Regular"&7&K5C6A6F';
  return {
    pageSetup: {
      paperSize: paper,
      orientation: print.orientation,
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: print.pages ?? 0,
      margins,
      horizontalCentered: true,
    },
    headerFooter: { oddFooter: `&L${small}${plain(print.footer)}&C${small}&A&R${small}Page &P of &N` },
  };
}

/** Print areas and titles as the names under which Excel keeps them, with absolute addresses. */
export function printNames(sheet: string, print: Printing): NamedRange[] {
  const names: NamedRange[] = [
    {
      name: "_xlnm.Print_Area",
      scope: sheet,
      range: print.areas.map((area) => onSheet(sheet, area)).join(","),
    },
  ];
  if (print.titleRows) {
    const rows = print.titleRows.replace(/(\d+)/g, "$$$1");
    names.push({
      name: "_xlnm.Print_Titles",
      scope: sheet,
      range: `${onSheet(sheet, "A1").replace(absolute("A1"), rows)}`,
    });
  }
  return names;
}
