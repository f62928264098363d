import { packed, partsOf } from "./parts";

/**
 * A copy in which every add-in cell holds its stored value instead of its formula, so that a program without the add-in shows the workbook
 * as it is meant to look and can recalculate the rest. An empty text that is stored becomes a blank cell in some programs; where most cells hold one, as in
 * a blank form, `emptyTexts` keeps it by the formula ="".
 */
export function freezeAddInCells(bytes: Uint8Array, { emptyTexts = false } = {}): Uint8Array {
  const parts = partsOf(bytes);
  for (const [name, xml] of parts) {
    if (!name.startsWith("xl/worksheets/sheet")) continue;
    parts.set(
      name,
      xml.replace(
        /<c ([^>]*)><f[^>]*>[^<]*_xldudf_[^<]*<\/f>(<v><\/v>)?/g,
        (_, attributes: string, empty = "") =>
          `<c ${attributes.replace(/ ?cm="\d+"/, "")}>${emptyTexts && empty !== "" ? '<f>""</f>' : ""}${empty as string}`,
      ),
    );
  }
  return packed(parts);
}
