import type { Table } from "../../model";
import { parseArea } from "../../book/address";
import type { Archive } from "../archive";
import { sentence, WorkbookProblem } from "../problem";
import { decodeText } from "../xml/text";
import { parseBoolean, type XmlReader } from "../xml/xml";

/** A table part (ECMA-376 part 1, 18.5.1.2), and whether its filter hides rows. */
export function readTable(archive: Archive, partName: string, sheet: number): { table: Table; isFiltered: boolean } {
  const columns: string[] = [];
  let head: Record<string, string> | undefined;
  let isFiltered = false;
  const reader: XmlReader = {
    open(name, attributes) {
      // An extension of the same name holds the table's alternative text.
      if (name === "table") head ??= attributes;
      else if (name === "tableColumn") columns.push(decodeText(attributes["name"] ?? ""));
      else if (name === "filterColumn") isFiltered = true;
    },
    close() {},
  };
  archive.read(partName, reader, "table");
  const { ref = "", totalsRowCount, headerRowCount, displayName: name = head?.["name"] } = head ?? {};
  const area = parseArea(ref);
  if (!area || !name) throw new WorkbookProblem("damaged", sentence`${partName}: the table has no name or no range`);
  const totalsRows = Number(totalsRowCount ?? 0);
  const headerRows = parseBoolean(headerRowCount, true) ? 1 : 0;
  return { table: { name, sheet, area, columns, headerRows, totalsRows }, isFiltered };
}
