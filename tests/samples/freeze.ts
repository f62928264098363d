import { packed, partsOf } from "./parts";

/**
 * A copy in which every add-in cell holds its stored value instead of its formula, so that a program without the add-in shows the workbook
 * as it is meant to look and can recalculate the rest.
 */
export function freezeAddInCells(bytes: Uint8Array): Uint8Array {
  const parts = partsOf(bytes);
  for (const [name, xml] of parts) {
    if (!name.startsWith("xl/worksheets/sheet")) continue;
    parts.set(
      name,
      xml.replace(
        /<c ([^>]*)><f[^>]*>[^<]*_xldudf_[^<]*<\/f>/g,
        (_, attributes: string) => `<c ${attributes.replace(/ ?cm="\d+"/, "")}>`,
      ),
    );
  }
  return packed(parts);
}
