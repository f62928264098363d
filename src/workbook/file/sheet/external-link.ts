import { buildCellKey, type CellValue, type ExternalBook, type ExternalSheet } from "../../model";
import { parsePlace } from "../../book/address";
import type { Archive } from "../archive";
import { limits } from "../limits";
import { sentence, WorkbookProblem } from "../problem";
import { decodeText } from "../xml/text";
import { parseBoolean } from "../xml/xml";
import { readLinkTargets } from "./relationships";
import { parseCellValue } from "./values";

interface Room {
  cellCount: number;
  readonly mostCells: number;
}

/**
 * Another workbook as this one keeps it (ECMA-376 part 1, 18.14): its name, and the values of the cells that formulas read when it
 * was last at hand. A link to another program has no sheets.
 */
export function readExternalLink(archive: Archive, partName: string, date1904: boolean, room: Room): ExternalBook {
  const sheetNames: string[] = [];
  const kept = new Map<number, Map<number, CellValue>>();
  const names: { name: string; text: string }[] = [];
  let cells: Map<number, CellValue> | undefined;
  let cell: Readonly<Record<string, string>> = {};
  let text: string | undefined;
  archive.read(
    partName,
    {
      open(name, attributes, part) {
        if (name === "sheetName") sheetNames.push(decodeText(attributes["val"] ?? ""));
        else if (name === "definedName" && attributes["sheetId"] === undefined) {
          const { name: defined = "", refersTo = "" } = attributes;
          names.push({ name: defined, text: refersTo.replace(/^=/, "") });
        } else if (name === "sheetData") {
          cells = new Map();
          // After a refresh that failed nothing is certain of what is kept.
          if (!parseBoolean(attributes["refreshError"])) kept.set(Number(attributes["sheetId"]), cells);
        } else if (name === "cell") {
          cell = attributes;
          text = undefined;
        } else if (name === "v") {
          text = "";
          part.wantText();
        }
      },
      addText: (piece) => (text = (text ?? "") + piece),
      close(name, part) {
        if (name === "v") part.ignoreText();
        if (name !== "cell" || !cells) return;
        const problem = (what: string): Error =>
          new WorkbookProblem("damaged", sentence`${partName}: the cell ${cell["r"] ?? ""} ${what}`);
        const place = parsePlace(cell["r"] ?? "");
        if (!place) throw problem("has no place");
        if (++room.cellCount > room.mostCells)
          throw new WorkbookProblem("too large", `the workbook has more than ${room.mostCells} filled cells`);
        const context = { strings: [], date1904, problem, noteEarlyDate: () => undefined };
        const value = parseCellValue(cell["t"] ?? "n", text, context);
        if (value !== null) cells.set(buildCellKey(place.row, place.column), value);
      },
    },
    "externalLink",
  );
  if (sheetNames.length > limits.records)
    throw new WorkbookProblem("too large", sentence`${partName} lists too many sheets`);
  const sheets = sheetNames.map((name, place): ExternalSheet => ({ name, cells: kept.get(place) }));
  const [target = ""] = readLinkTargets(archive, partName);
  return { file: decodeText(target).split(/[\\/]/).at(-1) ?? "", sheets, names };
}
