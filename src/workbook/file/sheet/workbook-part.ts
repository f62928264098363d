import type { DefinedName, Sheet } from "../../model";
import type { Archive } from "../archive";
import { decodeText } from "../xml/text";
import { booleanAttribute, prefixedAttribute } from "../xml/xml";

export interface SheetListing {
  readonly name: string;
  readonly visibility: Sheet["visibility"];
  readonly relationship: string;
}

/** What xl/workbook.xml says (ECMA-376 part 1, 18.2.27). */
export interface WorkbookPart {
  readonly sheets: SheetListing[];
  readonly names: DefinedName[];
  readonly date1904: boolean;
  readonly precisionAsDisplayed: boolean;
  /** Settings under which Excel computes otherwise than cell by cell at full precision; each a sentence for people. */
  readonly cautions: string[];
}

export function readWorkbookPart(archive: Archive, partName: string): WorkbookPart {
  const sheets: SheetListing[] = [];
  const names: DefinedName[] = [];
  const cautions: string[] = [];
  let date1904 = false;
  let precisionAsDisplayed = false;
  let definedName: { name: string; sheet?: number } | undefined;
  let text = "";
  archive.read(partName, {
    open(name, attributes, part) {
      if (name === "workbookPr") date1904 = booleanAttribute(attributes["date1904"]);
      else if (name === "sheet") {
        const state = attributes["state"];
        sheets.push({
          name: decodeText(attributes["name"] ?? ""),
          visibility: state === "hidden" || state === "veryHidden" ? state : "visible",
          relationship: prefixedAttribute(attributes, "id") ?? "",
        });
      } else if (name === "definedName") {
        const sheet = attributes["localSheetId"];
        definedName = { name: attributes["name"] ?? "", ...(sheet === undefined ? {} : { sheet: Number(sheet) }) };
        text = "";
        part.wantText();
      } else if (name === "calcPr") {
        precisionAsDisplayed = !booleanAttribute(attributes["fullPrecision"], true);
        cautions.push(...cautionsOf(attributes));
      }
    },
    text(piece) {
      text += piece;
    },
    close(name, part) {
      if (name !== "definedName" || !definedName) return;
      part.noText();
      names.push({ ...definedName, text: text.replace(/^=/, "") });
      definedName = undefined;
    },
  });
  return { sheets, names, date1904, precisionAsDisplayed, cautions };
}

function cautionsOf(attributes: Record<string, string>): string[] {
  const cautions: string[] = [];
  if (!booleanAttribute(attributes["fullPrecision"], true)) {
    cautions.push(
      "the workbook calculates with the precision as displayed; here too, results are rounded to the digits that their cells show",
    );
  }
  if (booleanAttribute(attributes["iterate"])) {
    cautions.push("the workbook allows iterative calculation; here cells that depend on themselves are not calculated");
  }
  return cautions;
}
