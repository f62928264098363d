import { getFormatFromId } from "numfmt";
import type { Archive } from "../archive";
import { parseBoolean, type XmlReader } from "../xml/xml";

/** The number format code of each cell style, by the index that a cell's `s` attribute gives (ECMA-376 part 1, 18.8.10, 18.8.30). */
export function readCellFormats(archive: Archive, partName: string): string[] {
  const custom = new Map<number, string>();
  const ids: number[] = [];
  let insideCellStyles = false;
  const reader: XmlReader = {
    open(name, attributes) {
      if (name === "numFmt") custom.set(Number(attributes["numFmtId"]), attributes["formatCode"] ?? "General");
      else if (name === "cellXfs") insideCellStyles = true;
      else if (name === "xf" && insideCellStyles) ids.push(Number(attributes["numFmtId"] ?? 0));
    },
    close(name) {
      if (name === "cellXfs") insideCellStyles = false;
    },
  };
  archive.read(partName, reader, "styleSheet");
  return ids.map((id) => custom.get(id) ?? findBuiltInFormat(id));
}

/** Whether each cell style is locked, by the same index: every cell is, unless its style says otherwise (ECMA-376 part 1, 18.8.33). */
export function readLockedStyles(archive: Archive, partName: string): boolean[] {
  const locked: boolean[] = [];
  let insideCellStyles = false;
  archive.read(partName, {
    open(name, attributes) {
      if (name === "cellXfs") insideCellStyles = true;
      else if (name === "xf" && insideCellStyles) locked.push(true);
      else if (name === "protection" && insideCellStyles) {
        locked[locked.length - 1] = parseBoolean(attributes["locked"], true);
      }
    },
    close(name) {
      if (name === "cellXfs") insideCellStyles = false;
    },
  });
  return locked;
}

function findBuiltInFormat(id: number): string {
  try {
    return getFormatFromId(id);
  } catch {
    return "General";
  }
}
