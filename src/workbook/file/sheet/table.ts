import type { Area, Table } from "../../model";
import { parseArea } from "../../book/address";
import type { Archive } from "../archive";
import { sentence, WorkbookProblem } from "../problem";
import { decodeText } from "../xml/text";
import { parseBoolean, type XmlReader } from "../xml/xml";

/** A table part (ECMA-376 part 1, 18.5.1.2), and the range of its filter when that filter hides rows. */
export function readTable(archive: Archive, partName: string, sheet: number): { table: Table; filter?: Area } {
  const columns: string[] = [];
  let head: Record<string, string> = {};
  let filter: Area | undefined;
  let filterWorks = false;
  const reader: XmlReader = {
    open(name, attributes) {
      if (name === "table") head = attributes;
      else if (name === "tableColumn") columns.push(decodeText(attributes["name"] ?? ""));
      else if (name === "autoFilter") filter = parseArea(attributes["ref"] ?? "");
      else if (name === "filterColumn") filterWorks = true;
    },
    close() {},
  };
  archive.read(partName, reader, "table");
  const area = parseArea(head["ref"] ?? "");
  const name = head["displayName"] ?? head["name"];
  if (!area || !name) throw new WorkbookProblem("damaged", sentence`${partName}: the table has no name or no range`);
  const totalsRows = Number(head["totalsRowCount"] ?? 0);
  const headerRows = parseBoolean(head["headerRowCount"], true) ? 1 : 0;
  const table: Table = { name, sheet, area, columns, headerRows, totalsRows };
  return filter && filterWorks ? { table, filter } : { table };
}
