import type { Book, Table } from "../../model";
import { refuse } from "../values/refusal";
import type { Place } from "../../book/area";
import type { TableNode } from "../parse/syntax";
import { errors, Reference, type Scalar } from "../values/value";
import { sentence } from "../../file/problem";

/** The area that a structured reference means: Table[Column], Table[[#Headers],[a]:[b]], Table[@Column]. */
export function resolveTable(node: TableNode, place: Place, book: Book): Reference | Scalar {
  const table = findTable(node, place, book);
  if (!table) return errors.name;
  const { area } = table;
  const sections = node.sections.map((section) => section.toLowerCase());
  const first = node.columns.length > 0 ? findColumn(table, node.columns[0] ?? "") : 0;
  const last =
    node.columns.length > 1
      ? findColumn(table, node.columns[1] ?? "")
      : node.columns.length > 0
        ? first
        : area.right - area.left;
  const columns = { left: area.left + Math.min(first, last), right: area.left + Math.max(first, last) };
  const rows = findRowsOfSections(table, sections, place);
  if (typeof rows === "string") return rows === "this row" ? errors.value : errors.reference;
  return new Reference([{ sheet: table.sheet, ...rows, ...columns }]);
}

function findTable(node: TableNode, place: Place, book: Book): Table | undefined {
  if (node.table !== "") return book.tables.find((table) => table.name.toLowerCase() === node.table.toLowerCase());
  return book.tables.find(
    ({ sheet, area }) =>
      sheet === place.sheet &&
      place.row >= area.top &&
      place.row <= area.bottom &&
      place.column >= area.left &&
      place.column <= area.right,
  );
}

function findColumn(table: Table, name: string): number {
  const wanted = name.toLowerCase();
  const found = table.columns.findIndex((column) => column.toLowerCase() === wanted);
  return found >= 0 ? found : refuse(sentence`the table ${table.name} has no column "${name}"`);
}

function findRowsOfSections(
  table: Table,
  sections: readonly string[],
  place: Place,
): { top: number; bottom: number } | "this row" | "missing" {
  const { area, headerRows, totalsRows } = table;
  const data = { top: area.top + headerRows, bottom: area.bottom - totalsRows };
  if (sections.length === 0) return data;
  if (sections.includes("all")) return { top: area.top, bottom: area.bottom };
  if (sections.includes("this row")) {
    // The row number counts, on another sheet too.
    return place.row >= data.top && place.row <= data.bottom ? { top: place.row, bottom: place.row } : "this row";
  }
  const pieces: { top: number; bottom: number }[] = [];
  if (sections.includes("headers") && headerRows > 0) pieces.push({ top: area.top, bottom: data.top - 1 });
  if (sections.includes("data")) pieces.push(data);
  if (sections.includes("totals") && totalsRows > 0) pieces.push({ top: data.bottom + 1, bottom: area.bottom });
  if (pieces.length !== sections.length) return "missing";
  return {
    top: Math.min(...pieces.map((piece) => piece.top)),
    bottom: Math.max(...pieces.map((piece) => piece.bottom)),
  };
}
