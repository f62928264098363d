import { readCellStyles, type CellStyles } from "./cell-styles";
import { colourReader } from "./colours";
import { drawingsIn } from "./drawings";
import type { OpenedWorkbook } from "../open";
import { relationshipsOf } from "../sheet/relationships";
import { SheetLooksReader, type SheetLooks } from "./sheet-looks-reader";

export type { Drawing } from "./drawings";
export type { ConditionalRule } from "./conditional-rules";
export type { SheetLooks } from "./sheet-looks-reader";

/** Reads the looks of every sheet from its part, once more: the book leaves them out, so that recalculating stays fast. */
export function readSheetLooks(opened: OpenedWorkbook): SheetLooks[] {
  const { archive } = opened;
  const main = relationshipsOf(archive, "").find(({ kind }) => kind === "officeDocument")?.target ?? "";
  const links = relationshipsOf(archive, main);
  const partOf = (wanted: string) => links.find(({ kind }) => kind === wanted)?.target;
  const stylePart = partOf("styles");
  const styles: CellStyles =
    stylePart === undefined
      ? { cells: [], conditional: [] }
      : readCellStyles(archive, stylePart, colourReader(archive, partOf("theme")));
  return opened.sheetParts.map((partName) => {
    const reader = new SheetLooksReader(styles);
    if (partName === undefined) return reader.finish([]);
    archive.read(partName, reader);
    const parts = relationshipsOf(archive, partName).filter(({ kind }) => kind === "drawing");
    return reader.finish(parts.flatMap(({ target }) => (archive.entry(target) ? drawingsIn(archive, target) : [])));
  });
}
